#!/usr/bin/python3
"""A bare window of WebKitGTK that its driver steers, for the journeys.

The driver has no command for what a journey needs besides: scripts that run in every page
before its own, the window's size, its look. Those come over a socket, one line of JSON each
way. Arguments: the folder of the profile, the folder for downloads, the socket's path.
"""

import json
import os
import sys

import gi

gi.require_version("Gtk", "3.0")
gi.require_version("WebKit2", "4.1")
from gi.repository import Gio, GLib, Gtk, WebKit2  # noqa: E402

profile, downloads, socket = sys.argv[1:4]

# What pages say and what they ask the network for, until it is read.
kept = {"said": [], "asked": []}
scripts = []
views = []
# What is being printed.
jobs = []

# Tells of errors; runs before all other scripts.
TELL = """{
  const tell = (text) => text && window.webkit.messageHandlers.said.postMessage(String(text));
  addEventListener("error", (event) => tell(event.message || event.target.src), true);
  addEventListener("unhandledrejection", (event) => tell(event.reason));
  const error = console.error;
  console.error = (...said) => { tell(said.join(" ")); error.apply(console, said); };
}"""


def give_scripts(manager):
    manager.remove_all_scripts()
    for text in [TELL, *scripts]:
        manager.add_script(
            WebKit2.UserScript(
                text,
                WebKit2.UserContentInjectedFrames.TOP_FRAME,
                WebKit2.UserScriptInjectionTime.START,
                None,
                None,
            )
        )


def new_view(*_):
    manager = WebKit2.UserContentManager()
    manager.connect(
        "script-message-received::said",
        lambda _, message: kept["said"].append(message.get_js_value().to_string()),
    )
    manager.register_script_message_handler("said")
    give_scripts(manager)
    view = WebKit2.WebView(
        web_context=context,
        is_controlled_by_automation=True,
        user_content_manager=manager,
    )
    view.connect(
        "resource-load-started",
        lambda _, resource, request: kept["asked"].append(request.get_uri()),
    )
    view.connect("close", lambda view: view.get_toplevel().destroy())
    window = Gtk.Window()
    window.set_default_size(360, 740)
    window.add(view)
    window.show_all()
    views.append(view)
    return view


def start(_, session):
    info = WebKit2.ApplicationInfo()
    info.set_name("window")
    info.set_version(1, 0, 0)
    session.set_application_info(info)
    session.connect("create-web-view", new_view)


def save(_, download):
    def decide(download, name):
        download.set_destination(f"file://{downloads}/{name}")
        return True

    download.connect("decide-destination", decide)


def obey(order):
    settings = Gtk.Settings.get_default()
    if order["do"] == "scripts":
        scripts[:] = order["scripts"]
        for view in views:
            give_scripts(view.get_user_content_manager())
    elif order["do"] == "resize":
        for view in views:
            view.get_toplevel().resize(order["width"], order["height"])
    elif order["do"] == "look":
        settings.set_property("gtk-application-prefer-dark-theme", order["dark"])
        settings.set_property("gtk-enable-animations", order["moves"])
    elif order["do"] == "kept":
        found, kept[order["name"]] = kept[order["name"]], []
        return found
    elif order["do"] == "print":
        paper = Gtk.PageSetup()
        paper.set_paper_size(Gtk.PaperSize.new(Gtk.PAPER_NAME_A4))
        settings = Gtk.PrintSettings()
        settings.set(Gtk.PRINT_SETTINGS_OUTPUT_URI, f"file://{order['file']}")
        settings.set_printer("Print to File")
        job = WebKit2.PrintOperation.new(views[-1])
        job.set_print_settings(settings)
        job.set_page_setup(paper)
        job.connect("failed", lambda _, error: kept["said"].append(error.message))
        job.connect("finished", lambda job: jobs.remove(job))
        jobs.append(job)
        job.print_()
    elif order["do"] == "close":
        # What a page began to keep takes less time than a hand.
        GLib.timeout_add(300, Gtk.main_quit)
    return None


def serve(_, connection, *__):
    stream = Gio.DataInputStream.new(connection.get_input_stream())

    def read(stream, result):
        line, _ = stream.read_line_finish_utf8(result)
        if line is None:
            return
        answer = json.dumps(obey(json.loads(line))) + "\n"
        connection.get_output_stream().write_all(answer.encode(), None)
        stream.read_line_async(GLib.PRIORITY_DEFAULT, None, read)

    stream.read_line_async(GLib.PRIORITY_DEFAULT, None, read)
    return True


context = WebKit2.WebContext(
    website_data_manager=WebKit2.WebsiteDataManager(
        base_data_directory=f"{profile}/data", base_cache_directory=f"{profile}/cache"
    )
)
context.set_automation_allowed(True)
context.set_preferred_languages(["en-GB"])
context.connect("automation-started", start)
context.connect("download-started", save)
# What a window that was closed or killed has left.
if os.path.exists(socket):
    os.remove(socket)
service = Gio.SocketService()
service.add_address(
    Gio.UnixSocketAddress.new(socket),
    Gio.SocketType.STREAM,
    Gio.SocketProtocol.DEFAULT,
    None,
)
service.connect("incoming", serve)
service.start()
Gtk.main()
