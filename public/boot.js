// Starts the app, says plainly when that fails, and registers the service worker.
// Start at the last lines. It never reloads a page on its own: an update is put in place
// only when the app calls `weekloomUpdate.apply()`, which it does when no session is open.

// Replaces whatever is on the page; nothing is written or deleted here.
function showFailure(cause) {
  console.error(cause);
  if (document.getElementById("failure")) return;
  const failure = document.createElement("main");
  failure.id = "failure";
  failure.className = "shell shell-failure";
  const title = document.createElement("h1");
  title.textContent = "Weekloom stopped";
  const text = document.createElement("p");
  text.setAttribute("role", "alert");
  text.textContent = "Reload the page; your sets are safe on this phone.";
  const button = document.createElement("button");
  button.type = "button";
  button.className = "button button--main";
  button.textContent = "Reload";
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

async function registerWorker() {
  if (!("serviceWorker" in navigator)) return;
  try {
    registration = await navigator.serviceWorker.register(new URL("../sw.js", import.meta.url), {
      updateViaCache: "none",
    });
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

watchForTraps();
// Only then, so that the offline copy, which loads everything once more, never competes
// with the first start; and also when that failed, for a newer version may mend it.
startApp().then(whenIdle).then(registerWorker);
