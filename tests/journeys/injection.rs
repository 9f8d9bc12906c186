//! Hostile text is text wherever it is shown, and the page's policy refuses what
//! would run, load or phone home all the same.

use serde_json::json;
use weekloom_tests::browser::{Page, Role};
use weekloom_tests::journey;
use weekloom_tests::pages::{FirstOpening, Gym, Places, Sheet, Today, YourData};
use weekloom_tests::words;

/// Would run in four ways if it were taken for anything but text, and turns the
/// direction of what follows.
const HOSTILE: &str = "<img src=x onerror=\"window.ran=1\"><script>window.ran=1</script>\
    javascript:window.ran=1 {{window.ran=1}} \u{202e}gnp.exe \u{1f3cb}\u{fe0f}";
/// As much of it as a name of an exercise holds.
const NAME: &str = "<img src=x onerror=\"window.ran=1\">\u{202e}gnp \u{1f3cb}";

/// Takes down what the policy refuses.
const WATCH: &str = "window.refused = [];
    document.addEventListener('securitypolicyviolation', (event) =>
        window.refused.push(event.effectiveDirective));";

#[test]
fn hostile_text_is_shown_as_text_and_nothing_of_it_runs() {
    journey::run("injection", async |journey| {
        journey.inject(WATCH);
        let page = journey.open().await;
        FirstOpening(&page)
            .answer(&["Mon"], "Some training", "kg")
            .await;
        // As the name of an exercise of one's own, in the plan and in the session.
        Places(&page).go_to_kit(words::OWN_EXERCISES).await;
        page.tap(Role::Link, words::NEW_EXERCISE).await;
        page.type_into(words::EXERCISE_NAME, NAME).await;
        page.tap(Role::Button, words::SAVE_EXERCISE).await;
        page.find(Role::Link, NAME).await;
        Places(&page).go(words::PLAN).await;
        page.tap(Role::Link, &format!("+ {}", words::ADD_EXERCISE))
            .await;
        page.tap(Role::Disclosure, "squat").await;
        page.tap(Role::Button, NAME).await;
        page.find(Role::Heading, words::YOUR_WEEK).await;
        page.sees(NAME).await;
        fits(&page).await;

        // As a note of the session, read again in the log and found there.
        Places(&page).go(words::TODAY).await;
        Today(&page).start().await;
        let gym = Gym(&page);
        gym.do_now(NAME).await;
        fits(&page).await;
        let sheet = gym.more().await;
        page.type_into(words::NOTE, HOSTILE).await;
        sheet.close().await;
        Sheet(&page).is_gone().await;
        gym.log().await;
        gym.finish_early().await;
        page.sees(HOSTILE).await;
        fits(&page).await;
        gym.leave().await;
        Places(&page).go(words::LOG).await;
        page.type_into(words::SEARCH_LOG, "onerror").await;
        page.sees(HOSTILE).await;

        // Through a backup file and back, on a phone that has nothing.
        let data = YourData(&page);
        data.open().await;
        let (file, _) = data.save(journey).await;
        data.delete_all().await;
        FirstOpening(&page).skip().await;
        data.open().await;
        data.read(&file).await;
        data.accept().await;
        Places(&page).go(words::LOG).await;
        page.tap(Role::Link, "Mon 2 Mar").await;
        page.sees(HOSTILE).await;
        page.sees(NAME).await;
        fits(&page).await;

        assert_eq!(
            page.script("return window.ran ?? null", vec![]).await,
            json!(null)
        );
        let strange = "return document.querySelectorAll('img, main script, iframe').length";
        assert_eq!(page.script(strange, vec![]).await, 0);
        // Not even an attempt was made.
        assert_eq!(
            page.script("return window.refused", vec![]).await,
            json!([])
        );
    });
}

/// One endless word makes no screen wider than the phone.
async fn fits(page: &Page) {
    let wide = "return document.scrollingElement.scrollWidth - innerWidth";
    assert_eq!(page.script(wide, vec![]).await, 0);
}

#[test]
fn the_policy_refuses_what_is_put_into_the_page() {
    journey::run("policy", async |journey| {
        journey.inject(WATCH);
        journey.forgive("Content Security Policy");
        journey.forgive("violates the following");
        journey.forgive("This document requires 'Trusted");
        let page = journey.open().await;
        FirstOpening(&page).skip().await;
        let knows = page.script("return 'trustedTypes' in window", vec![]).await == true;
        for (attempt, refused, without) in [
            // An inline script.
            (
                "try { const s = document.createElement('script'); s.textContent = 'window.ran = 1';
                 document.body.append(s) } catch {}",
                "require-trusted-types-for",
                Some("script-src-elem"),
            ),
            // An inline handler.
            (
                "const d = document.createElement('div');
                 try { d.setAttribute('onclick', 'window.ran = 1') } catch {}
                 document.body.append(d); d.click();",
                "require-trusted-types-for",
                Some("script-src-attr"),
            ),
            // A way round that.
            (
                "try { trustedTypes.createPolicy('other', { createScript: (text) => text }) } catch {}",
                "trusted-types",
                None,
            ),
            // A link that runs. Which of the two rules is named differs between engines.
            (
                "const a = document.createElement('a'); a.href = 'javascript:window.ran = 1';
                 document.body.append(a); a.click();",
                "script-src-elem or require-trusted-types-for",
                Some("script-src-elem"),
            ),
            // Text as code, and as markup.
            (
                "try { setTimeout('window.ran = 1', 0) } catch {}",
                "require-trusted-types-for",
                Some("script-src"),
            ),
            (
                "try { document.querySelector('main').innerHTML = '<p>x</p>' } catch {}",
                "require-trusted-types-for",
                None,
            ),
            // A script, a picture and a message from and to somewhere else.
            (
                "try { const s = document.createElement('script'); s.src = 'http://127.0.0.2:49152/x.js';
                 document.body.append(s) } catch {}",
                "require-trusted-types-for",
                Some("script-src-elem"),
            ),
            (
                "const i = new Image(); i.src = 'http://127.0.0.2:49152/x.png';",
                "img-src",
                Some("img-src"),
            ),
            (
                "fetch('http://127.0.0.2:49152/', { method: 'POST', body: 'log' }).catch(() => {});",
                "connect-src",
                Some("connect-src"),
            ),
            (
                "const f = document.createElement('iframe'); f.src = 'http://127.0.0.2:49152/';
                 document.body.append(f);",
                "frame-src",
                Some("frame-src"),
            ),
            // A style, and a form that takes the log away.
            (
                "const s = document.createElement('style'); s.textContent = '*{color:red}';
                 document.head.append(s);",
                "style-src-elem",
                Some("style-src-elem"),
            ),
            (
                "const f = document.createElement('form'); f.action = 'http://127.0.0.2:49152/';
                 document.body.append(f); try { f.submit() } catch {}",
                "form-action",
                Some("form-action"),
            ),
        ] {
            // Where an engine has no Trusted Types, the sources of scripts hold alone; what
            // is only words there (a policy, markup without a script) is refused by nothing.
            let Some(refused) = (if knows { Some(refused) } else { without }) else {
                continue;
            };
            page.script("window.refused = []", vec![]).await;
            page.script(attempt, vec![]).await;
            page.until(&format!("a refusal of {refused} for {attempt}"), async || {
                let found = page.script("return window.refused", vec![]).await;
                let found = found.as_array()?.clone();
                let is_meant = |one: &str| refused.split(" or ").any(|meant| meant == one);
                found
                    .iter()
                    .any(|one| one.as_str().is_some_and(is_meant))
                    .then_some(())
            })
            .await;
        }
        assert_eq!(
            page.script("return window.ran ?? null", vec![]).await,
            json!(null)
        );
        // The app stands.
        Places(&page).go(words::WEEK).await;
    });
}

/// A page told of by nobody else may not put the app into a frame either: that part
/// of the policy can only be said by a server, and the headers file says it.
#[test]
fn page_and_headers_say_the_same_policy() {
    let dist = xtask::paths::dist();
    let page = std::fs::read_to_string(dist.join("index.html")).expect("the page");
    let headers = std::fs::read_to_string(dist.join("_headers")).expect("the headers");
    let told = page
        .split_once("Content-Security-Policy\" content=\"")
        .and_then(|(_, rest)| rest.split_once('"'))
        .map(|(policy, _)| policy)
        .expect("the page's policy");
    assert!(headers.contains(&format!(
        "Content-Security-Policy: {told}; frame-ancestors 'none'"
    )));
    // WebAssembly may be compiled; text may not.
    let script = told
        .split(';')
        .find(|part| part.trim().starts_with("script-src"));
    assert_eq!(
        script.map(str::trim),
        Some("script-src 'self' 'wasm-unsafe-eval'")
    );
    assert!(!told.contains("unsafe-inline"));
    assert!(told.ends_with("require-trusted-types-for 'script'; trusted-types weekloom"));
}
