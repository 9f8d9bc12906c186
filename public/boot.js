// Starts the app, says plainly when that fails, and registers the service worker.
// Start at the last lines. It never reloads a page on its own: an update is put in place
// only when the app calls `weekloomUpdate.apply()`, which it does when no session is open.

// Replaces whatever is on the page; nothing is written or deleted here.
async function showFailure(cause) {
  console.error(cause);
  if (document.getElementById("failure")) return;
  const pack = await window.weekloomLanguage.pack;
  if (document.getElementById("failure")) return;
  const say = (english) =>
    pack.split(`\x1e${english}\x1f`)[1]?.split("\x1e")[0] ?? english;
  const failure = document.createElement("main");
  failure.id = "failure";
  failure.className = "shell shell-failure";
  const title = document.createElement("h1");
  title.textContent = say("Weekloom stopped");
  const text = document.createElement("p");
  text.setAttribute("role", "alert");
  text.textContent = say("Reload the page; your sets are safe on this phone.");
  const button = document.createElement("button");
  button.type = "button";
  button.className = "button button--main";
  button.textContent = say("Reload");
  button.addEventListener("click", () => location.reload());
  const detail = document.createElement("p");
  detail.className = "shell-detail";
  detail.textContent = String(cause?.message ?? cause);
  failure.append(title, text, button, detail);
  document.body.replaceChildren(failure);
}

// A panic in the app ends in a trap, and after a trap nothing in the module may run again.
function watchForTraps() {
  const report = (cause) => {
    if (cause instanceof WebAssembly.RuntimeError) showFailure(cause);
  };
  addEventListener("error", (event) => report(event.error));
  addEventListener("unhandledrejection", (event) => report(event.reason));
}

// The app takes the shell away itself, once it has something to show.
async function startApp() {
  try {
    const { default: init } = await import("./%glue%");
    await init({ module_or_path: new URL("./%wasm%", import.meta.url) });
  } catch (cause) {
    showFailure(cause);
  }
}

// Languages besides English, each with the file of its words.
const WORDS = %words%;
// Of the languages that might be added, those written from right to left.
const RIGHT_TO_LEFT = ["ar", "fa", "he", "ur"];
const LANGUAGE_KEY = "%language%";
const FORMS_KEY = "%forms%";

// Days that weeks begin with, Sunday to Saturday, where they do not begin on Monday: for
// browsers that do not tell. From the Unicode CLDR (supplemental data, weekData/firstDay),
// written down from memory; browsers that do tell are asked first.
const FIRST_DAYS = {
  0: "AG AS BD BR BS BT BW BZ CA CO DM DO ET GT GU HK HN ID IL IN JM JP KE KH KR LA MH MM MO MT MX MZ NI NP PA PE PH PK PR PT PY SA SG SV TH TT TW UM US VE VI WS YE ZA ZW",
  5: "MV",
  6: "AF BH DJ DZ EG IQ IR JO KW LY OM QA SD SY",
};

function chosenLanguage() {
  try {
    return localStorage.getItem(LANGUAGE_KEY);
  } catch {
    return null; // Where storage is denied, the browser's own languages decide.
  }
}

// 0 for Monday to 6 for Sunday.
function firstDay(locale) {
  const told = locale.getWeekInfo?.() ?? locale.weekInfo;
  if (told) return told.firstDay - 1;
  const region = locale.maximize().region;
  const day = Object.keys(FIRST_DAYS).find((day) => FIRST_DAYS[day].split(" ").includes(region));
  return (Number(day ?? 1) + 6) % 7;
}

// How the person's language and region write numbers and dates, in the lines that
// src/app/text/language.rs reads. Days are counted and years are Gregorian, in the digits
// of the app.
function forms(language, locale) {
  const write = (options) => {
    const utc = { calendar: "gregory", numberingSystem: "latn", timeZone: "UTC", ...options };
    const format = new Intl.DateTimeFormat(locale, utc);
    return (...day) => format.formatToParts(Date.UTC(2024, ...day));
  };
  const part = (parts, type) => parts.find((part) => part.type === type)?.value ?? "";
  const all = (count, one) => Array.from({ length: count }, (_, at) => one(at)).join("\t");
  const pattern = (parts) =>
    parts.map(({ type, value }) => (type === "literal" ? value : `{${type}}`)).join("");
  // The first of January 2024 was a Monday.
  const weekdays = (width) => {
    const day = write({ weekday: width });
    return all(7, (at) => part(day(0, 1 + at), "weekday"));
  };
  const date = { day: "numeric", month: "short" };
  const day = write(date);
  const decimal = new Intl.NumberFormat(locale, { numberingSystem: "latn" }).formatToParts(1.5);
  return [
    language,
    part(decimal, "decimal"),
    firstDay(locale),
    weekdays("long"),
    weekdays("short"),
    all(12, (at) => part(day(at, 20), "month")),
    pattern(day(0, 20)),
    pattern(write({ ...date, year: "numeric" })(0, 20)),
  ].join("\n");
}

// The forms as they were found before, by this browser for these languages: to ask for
// them takes a tenth of a start.
function keptForms(language, locale) {
  const asked = `${navigator.userAgent}\n${navigator.languages}\n${locale}\n`;
  try {
    const kept = localStorage.getItem(FORMS_KEY);
    const found = kept?.startsWith(asked) && kept.slice(asked.length);
    if (found && found.split("\n").length === 8) return found; // Every line, none cut off.
  } catch {
    // Where storage is denied they are asked for anew.
  }
  const found = forms(language, locale);
  try {
    localStorage.setItem(FORMS_KEY, asked + found);
  } catch {
    // Denied or full.
  }
  return found;
}

// Finds the language: the one chosen here, or the first of the browser's that there is.
// Its words are on the way before the app is.
function takeUpLanguage() {
  const spoken = navigator.languages?.length ? navigator.languages : [navigator.language];
  const locales = spoken.flatMap((tag) => {
    try {
      return [new Intl.Locale(tag)];
    } catch {
      return []; // Not every browser's tags are well-formed ones.
    }
  });
  const exists = (language) => language === "en" || Object.hasOwn(WORDS, language);
  const chosen = chosenLanguage();
  const language = exists(chosen)
    ? chosen
    : (locales.find((locale) => exists(locale.language))?.language ?? "en");
  const region = locales[0]?.region;
  const locale =
    locales.find((locale) => locale.language === language) ??
    new Intl.Locale(language, region ? { region } : {});
  const pack = async () => {
    const file = WORDS[language];
    if (!file) return keptForms(language, locale);
    const answer = await fetch(new URL(file, import.meta.url));
    if (!answer.ok) throw new Error(`${file}: ${answer.status}`);
    const words = await answer.text();
    document.documentElement.lang = language;
    document.documentElement.dir = RIGHT_TO_LEFT.includes(language) ? "rtl" : "ltr";
    return `${keptForms(language, locale)}\n${words}`;
  };
  window.weekloomLanguage = {
    pack: pack().catch((cause) => {
      console.warn("no words in this language:", cause);
      return forms("en", new Intl.Locale("en", region ? { region } : {}));
    }),
    choose(language) {
      localStorage.setItem(LANGUAGE_KEY, language);
      location.reload();
    },
  };
}

// What the app sees of updates: `weekloom-update` on the window says that a new version
// waits; `apply` puts it in place and reloads.
let registration;
window.weekloomUpdate = {
  get isWaiting() {
    return Boolean(registration?.waiting && registration.active);
  },
  apply() {
    const worker = registration?.waiting;
    if (!worker) return;
    let reloading = false;
    const reload = () => {
      if (!reloading) location.reload();
      reloading = true;
    };
    navigator.serviceWorker.addEventListener("controllerchange", reload);
    // A page loaded past the worker has no controller to change.
    worker.addEventListener("statechange", () => {
      if (worker.state === "activated") reload();
    });
    worker.postMessage("skip-waiting");
  },
};

function announceUpdate() {
  if (window.weekloomUpdate.isWaiting) dispatchEvent(new CustomEvent("weekloom-update"));
}

// The one address of a script that the page names itself. The page's policy lets no text
// become code (Trusted Types), and this is the only exception.
const WORKER = new URL("../sw.js", import.meta.url).href;
const trusted = globalThis.trustedTypes?.createPolicy("weekloom", {
  createScriptURL(address) {
    if (address !== WORKER) throw new TypeError("no script from elsewhere");
    return address;
  },
});

async function registerWorker() {
  if (!("serviceWorker" in navigator)) return;
  try {
    const address = trusted?.createScriptURL(WORKER) ?? WORKER;
    registration = await navigator.serviceWorker.register(address, { updateViaCache: "none" });
  } catch (cause) {
    // Private windows and plain http forbid it: the app works, but not offline.
    console.warn("no offline copy:", cause);
    return;
  }
  registration.addEventListener("updatefound", () => {
    registration.installing?.addEventListener("statechange", announceUpdate);
  });
  document.addEventListener("visibilitychange", () => {
    if (document.visibilityState === "visible") registration.update().catch(() => {});
  });
  announceUpdate();
}

// A quiet moment, or soon.
function whenIdle() {
  return new Promise((resolve) => {
    if (typeof requestIdleCallback === "function") requestIdleCallback(resolve, { timeout: 1000 });
    else setTimeout(resolve, 300);
  });
}

takeUpLanguage();
watchForTraps();
// Only then, so that the offline copy, which loads everything once more, never competes
// with the first start; and also when that failed, for a newer version may mend it.
startApp().then(whenIdle).then(registerWorker);
