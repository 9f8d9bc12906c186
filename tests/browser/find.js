// Shown elements of a role whose name is, or else begins with, the one wanted; each with
// the element to tap. Of an open sheet only what is in it can be reached.
const [role, wanted, within] = arguments;
const SELECTORS = {
  button: "button, [role=button]",
  link: "a[href]",
  radio: "input[type=radio]",
  checkbox: "input[type=checkbox]",
  textbox: "input[type=text], input[type=search], input:not([type]), textarea",
  heading: "h1, h2, h3, h4, [role=heading]",
  disclosure: "summary",
  dialog: "dialog[open], [role=dialog]",
  status: "[role=status]",
  alert: "[role=alert]",
  timer: "[role=timer]",
  file: "input[type=file]",
};
// Marks of direction are not shown, and not every engine counts them as text shown.
const plain = (text) =>
  text.replace(/[\u202a-\u202e\u2066-\u2069]/g, "").replace(/\s+/g, " ").trim().toLowerCase();
// Signs that only decorate are no part of a name.
const text = (element) => {
  const hidden = [...(element?.querySelectorAll("[aria-hidden=true]") ?? [])];
  return hidden.reduce((all, part) => all.replace(part.innerText ?? "", ""), element?.innerText ?? "");
};
const nameOf = (element) => {
  const by = element.getAttribute("aria-labelledby");
  if (by) return by.split(/\s+/).map((id) => text(document.getElementById(id))).join(" ");
  const label = element.getAttribute("aria-label");
  if (label) return label;
  if (element.labels?.length) return [...element.labels].map(text).join(" ");
  return text(element);
};
const sheet = [...document.querySelectorAll("dialog[open]")].at(-1);
const root = within ?? (role === "dialog" ? document : sheet ?? document);
const shown = [...root.querySelectorAll(SELECTORS[role])].filter(
  (element) => role === "file" || element.checkVisibility({ visibilityProperty: true }),
);
const named = shown.map((element) => [element, plain(nameOf(element))]);
const name = plain(wanted);
const exact = named.filter(([, found]) => found === name);
const starting = named.filter(([, found]) => found.startsWith(name));
// What unfolds may say more before its name.
const holding = role === "disclosure" ? named.filter(([, found]) => found.includes(name)) : [];
const best = [exact, starting, holding].find((some) => some.length) ?? [];
return best.map(([element]) => [
  element,
  (["radio", "checkbox"].includes(role) && element.closest("label")) || element,
]);
