// Runs in the browser's own window. Errors of pages and their scripts, and addresses that
// pages ask the network for, are kept until they are read; scripts run in each new page
// before its own. Argument: the scripts.
const [scripts] = arguments;
if (!window.weekloomWatch) {
  const watch = (window.weekloomWatch = { said: [], asked: [] });
  const isPages = (address) => /^(https?|blob):/.test(address ?? "");
  Services.console.registerListener({
    observe(message) {
      const error = message instanceof Ci.nsIScriptError && message;
      if (error && !(error.flags & ~2) && isPages(error.sourceName))
        watch.said.push(`${error.sourceName}:${error.lineNumber} ${error.errorMessage}`);
    },
  });
  Services.mm.addMessageListener("weekloom:said", ({ data }) => watch.said.push(data));
  Services.obs.addObserver((channel) => {
    const { URI, loadInfo } = channel.QueryInterface(Ci.nsIHttpChannel);
    if (loadInfo?.triggeringPrincipal?.isContentPrincipal) watch.asked.push(URI.spec);
  }, "http-on-opening-request");
}
// In every window there is and in every one to come, whatever process it moves to; once in
// each, with the scripts that were given last.
const frame = `{
  const isNew = !globalThis.weekloomScripts;
  globalThis.weekloomScripts = ${JSON.stringify(scripts)};
  if (isNew) {
    const { addDebuggerToGlobal } = ChromeUtils.importESModule("resource://gre/modules/jsdebugger.sys.mjs");
    const box = Cu.Sandbox(Services.scriptSecurityManager.getSystemPrincipal(), { freshCompartment: true });
    addDebuggerToGlobal(box);
    addEventListener("DOMWindowCreated", ({ target }) => {
      const page = target.defaultView;
      if (!page || !/^https?:/.test(page.location.href)) return;
      const world = new box.Debugger().makeGlobalObjectReference(page);
      for (const script of globalThis.weekloomScripts) world.executeInGlobal(script);
    }, true);
    const heard = (subject) => {
      const { level, arguments: said } = subject.wrappedJSObject;
      if (level === "error") sendAsyncMessage("weekloom:said", said.map(String).join(" "));
    };
    Services.obs.addObserver(heard, "console-api-log-event");
    addEventListener("unload", ({ target }) => {
      if (target === globalThis) Services.obs.removeObserver(heard, "console-api-log-event");
    });
  }
}`;
window.weekloomFrame && Services.mm.removeDelayedFrameScript(window.weekloomFrame);
window.weekloomFrame = "data:application/javascript;charset=utf-8," + encodeURIComponent(frame);
Services.mm.loadFrameScript(window.weekloomFrame, true);
