//! Every screen under axe-core, light, dark and in forced colours, at the narrowest width
//! and with text at twice its size.

use serde_json::json;
use weekloom_tests::axe::Axe;
use weekloom_tests::browser::{Look, Page, Role};
use weekloom_tests::journey;
use weekloom_tests::pages::{Answer, FirstOpening, Gym, Places, Today, YourData};
use weekloom_tests::{others, words};
use xtask::browser::Engine;

/// Width at which WCAG 2.2, 1.4.10 wants no scrolling sideways.
const NARROWEST: u32 = 320;
/// Width and height of a tablet.
const TABLET: (u32, u32) = (820, 1180);
/// Width and height of a desk's window.
const DESK: (u32, u32) = (1280, 800);

/// The way back from the page of numbers.
const BACK_TO_APP: &str = "\u{2190} Back to Weekloom";

/// Looks at screens and takes down what is wrong with them.
struct Inspector {
    axe: Axe,
    found: Vec<String>,
    looked_at: usize,
}

impl Inspector {
    async fn look(&mut self, page: &Page, screen: &str) {
        self.axe.inject(page).await;
        for look in [Look::Light, Look::Dark, Look::Forced] {
            // WebKit forces no colours.
            if look == Look::Forced && page.engine() == Engine::WebKit {
                continue;
            }
            page.look(look).await;
            for line in self.axe.violations(page).await {
                self.found.push(format!("{screen}, {look:?}: {line}"));
            }
        }
        page.look(Look::Plain).await;
        self.look_sideways(page, screen, (NARROWEST, 740)).await;
        page.resize(360, 740).await;
        self.look_large(page, screen).await;
        // Panes, where there is room.
        self.look_sideways(page, screen, TABLET).await;
        self.look_large(page, &format!("{screen} on a tablet"))
            .await;
        self.look_sideways(page, screen, DESK).await;
        // What stays in sight while one scrolls lies over nothing at the page's end.
        let end = "scrollTo(0, document.scrollingElement.scrollHeight)";
        page.script(end, vec![]).await;
        for line in self.axe.violations(page).await {
            self.found.push(format!("{screen}, on a desk: {line}"));
        }
        page.script("scrollTo(0, 0)", vec![]).await;
        page.resize(360, 740).await;
        self.looked_at += 1;
    }

    /// Text at twice its size (WCAG 2.2, 1.4.4): nothing leaves the screen sideways,
    /// no text is cut off by what holds it, and no word of ten letters or fewer is broken.
    async fn look_large(&mut self, page: &Page, screen: &str) {
        let script = "const root = document.documentElement;
            root.style.fontSize = '200%';
            // WebKit keeps the widths that a table's columns had until it is laid out anew.
            document.body.style.display = 'none';
            document.body.offsetWidth;
            document.body.style.display = '';
            const wide = document.scrollingElement.scrollWidth - innerWidth;
            const cut = [...document.querySelectorAll('main *, nav *')]
                .filter((e) => e.checkVisibility() && !e.closest('svg, select, input, .unseen')
                    // Cut short on purpose: the whole list is a tap away.
                    && !e.classList.contains('day__list')
                    && e.scrollWidth > e.clientWidth + 1 && e.clientWidth > 0
                    && getComputedStyle(e).display !== 'inline')
                .map((e) => e.tagName + '.' + e.className + ' ' + e.textContent.slice(0, 30) + ' ' + [e.scrollWidth, e.clientWidth]).slice(0, 4);
            const broken = [];
            const range = document.createRange();
            const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
            for (let text; (text = walker.nextNode());) {
                if (!text.parentElement.checkVisibility({ visibilityProperty: true })
                    || text.parentElement.closest('svg, select, .unseen, .shell')
                    // Firefox alone hyphenates: between syllables, as in print.
                    || (arguments[0] && text.parentElement.closest('th, td'))) continue;
                for (const { 0: word, index } of text.data.matchAll(/\\p{L}{2,10}(?![\\p{L}_/])/gu)) {
                    if (/[\\p{L}_/]/u.test(text.data[index - 1] ?? '')) continue;
                    range.setStart(text, index);
                    range.setEnd(text, index + word.length);
                    // WebKit gives a word at a line's begin a box of no width on the line before.
                    const boxes = [...range.getClientRects()].filter(({ width }) => width > 1);
                    const lines = new Set(boxes.map(({ top }) => Math.round(top)));
                    if (lines.size > 1) broken.push(word + ' in ' + text.parentElement.closest('[class]')?.className);
                }
            }
            root.style.fontSize = '';
            cut.push(...new Set(broken));
            return wide > 0 || cut.length ? [wide, ...cut] : null";
        let hyphenates = page.engine() == Engine::Firefox;
        let found = page.script(script, vec![json!(hyphenates)]).await;
        if !found.is_null() {
            self.found.push(format!("{screen}, text at 200 %: {found}"));
        }
    }

    /// Nothing leaves a window of this width and height sideways, written from left to
    /// right or from right to left.
    async fn look_sideways(&mut self, page: &Page, screen: &str, (width, height): (u32, u32)) {
        page.resize(width, height).await;
        let script = "const [width, direction] = arguments;
            const root = document.documentElement;
            const before = root.dir;
            root.dir = direction;
            const wide = document.scrollingElement.scrollWidth;
            const leaves = ({ left, right }) => right > width + 1 || left < -1;
            const culprits = [...document.querySelectorAll('body *')]
                .filter((e) => e.checkVisibility() && !e.closest('.unseen') && leaves(e.getBoundingClientRect()))
                .map((e) => e.tagName + '.' + e.className).slice(0, 4);
            root.dir = before;
            return wide > width ? [wide, ...culprits] : null";
        for direction in ["ltr", "rtl"] {
            let found = page
                .script(script, vec![json!(width), json!(direction)])
                .await;
            if !found.is_null() {
                self.found.push(format!(
                    "{screen}, {direction}: wider than {width}: {found}"
                ));
            }
        }
    }
}

#[test]
fn no_screen_violates_wcag_in_light_or_dark() {
    let axe = match Axe::find() {
        Ok(axe) => axe,
        Err(why) => return journey::not_run("accessibility", &why),
    };
    journey::run("accessibility", async |journey| {
        let mut inspector = Inspector {
            axe,
            found: Vec::new(),
            looked_at: 0,
        };
        let page = journey.open().await;
        opening(&page, &mut inspector).await;
        session(&page, &mut inspector).await;
        plan(&page, &mut inspector).await;
        kit(&page, &mut inspector).await;
        data(&page, journey, &mut inspector).await;
        assert!(
            inspector.looked_at >= 25,
            "only {} screens",
            inspector.looked_at
        );
        let found = inspector.found;
        assert!(
            found.is_empty(),
            "{} violations:\n{}",
            found.len(),
            found.join("\n")
        );
    });
}

async fn opening(page: &Page, inspector: &mut Inspector) {
    page.tap(Role::Disclosure, words::HAVE_BACKUP).await;
    inspector.look(page, "cautions").await;
    let opening = FirstOpening(page);
    opening.read_cautions().await;
    opening.train_on(&[]).await;
    page.tap(Role::Button, words::NEXT).await;
    page.find(Role::Alert, words::NEED_A_DAY).await;
    inspector.look(page, "question of days, refused").await;
    opening.train_on(&["Mon", "Wed", "Fri"]).await;
    opening.next(words::WITH_WHAT).await;
    inspector.look(page, "question of kit").await;
    opening.next(words::ABOUT_YOU).await;
    page.tap(Role::Disclosure, words::WISHES).await;
    inspector.look(page, "question of wishes").await;
    opening.weave().await;
    inspector.look(page, "today").await;
}

async fn session(page: &Page, inspector: &mut Inspector) {
    Today(page).start().await;
    let gym = Gym(page);
    gym.why().await;
    gym.left_in_me(2).await;
    inspector.look(page, "first set").await;
    let name = gym.exercise().await;
    gym.log().await;
    gym.resting().await;
    let count = gym.count_field().await;
    page.type_into(count, "x\n").await;
    page.sees("is not a number").await;
    inspector.look(page, "resting, a number refused").await;
    gym.type_count("9").await;
    let sheet = gym.whole().await;
    sheet.unfold(&name).await;
    page.tap(Role::Button, words::AMEND).await;
    inspector.look(page, "whole session").await;
    sheet.close().await;
    page.tap(Role::Button, words::SWAP).await;
    sheet.is_up(words::SWAP_FOR).await;
    inspector.look(page, "swap").await;
    sheet.close().await;
    for name in [words::LOAD_UP, words::WARM_UP] {
        if page.has(Role::Button, name).await {
            page.tap(Role::Button, name).await;
            sheet.is_up("").await;
            inspector.look(page, "plates and warm-up").await;
            sheet.close().await;
            break;
        }
    }
    gym.more().await;
    page.tap(Role::Radio, words::HURTS_PAINFUL).await;
    page.sees(words::HURTS_ADVICE).await;
    inspector.look(page, "more, painful").await;
    page.tap(Role::Button, words::PAUSE).await;
    page.find(Role::Heading, words::PAUSED).await;
    inspector.look(page, "paused").await;
    page.tap(Role::Button, words::RESUME).await;
    let (done, of) = gym.progress().await;
    for _ in done..of {
        gym.log().await;
    }
    page.find(Role::Heading, words::ALL_DONE).await;
    inspector.look(page, "all sets done").await;
    gym.finish().await;
    inspector.look(page, "session done").await;
    gym.leave().await;
    inspector.look(page, "done for today").await;
    let places = Places(page);
    places.go(words::LOG).await;
    page.sees(&words::totals(1, of)).await;
    inspector.look(page, "log").await;
    page.tap(Role::Link, words::REVIEW).await;
    page.find(Role::Heading, words::SETS_BY_MUSCLE).await;
    inspector.look(page, "what the last weeks show").await;
    page.tap(Role::Link, words::NEXT_BLOCK).await;
    page.find(Role::Heading, words::WHAT_CHANGES).await;
    inspector.look(page, "the next block").await;
    page.tap(Role::Button, words::BEGIN_BLOCK).await;
    page.sees(&words::week_of(1, 6)).await;
    inspector.look(page, "the review in a block").await;
    places.go(words::LOG).await;
    page.tap(Role::Link, words::BY_MUSCLE).await;
    page.find(Role::Heading, words::SESSIONS_AND_TIME).await;
    inspector.look(page, "by week and muscle").await;
    places.go(words::LOG).await;
    page.tap(Role::Link, words::BY_EXERCISE).await;
    page.find(Role::Heading, words::BY_EXERCISE).await;
    inspector.look(page, "by exercise").await;
    page.tap(Role::Link, "Lat pulldown").await;
    page.sees(words::NOT_ENOUGH).await;
    inspector.look(page, "one exercise over time").await;
    places.go(words::LOG).await;
    page.tap(Role::Link, words::YEAR).await;
    page.find(Role::Heading, "2026").await;
    inspector.look(page, "the year as cloth").await;
    places.go(words::LOG).await;
    page.tap(Role::Link, "Mon 2 Mar").await;
    page.find(Role::Heading, "Monday").await;
    inspector.look(page, "one past session").await;
    places.go(words::WEEK).await;
    page.find(Role::Heading, words::THIS_WEEK).await;
    inspector.look(page, "week").await;
    page.tap(
        Role::Link,
        &format!("{}: Wednesday 4 Mar", words::CANT_MAKE_IT),
    )
    .await;
    page.find(Role::Heading, words::CANT_MAKE_IT).await;
    inspector.look(page, "a session to settle").await;
    page.tap(Role::Link, words::AWAY).await;
    page.find(Role::Heading, words::AWAY).await;
    inspector.look(page, "pause or travel").await;
}

async fn plan(page: &Page, inspector: &mut Inspector) {
    let first = "return [...document.querySelectorAll('main a[href]')]
        .map((link) => link.hash).find((hash) => /^#.plan.\\d+.\\d+$/.test(hash)) ?? null";
    Places(page).go(words::PLAN).await;
    page.find(Role::Heading, words::YOUR_WEEK).await;
    page.tap(Role::Button, words::ASK_RELIEF).await;
    page.misses(words::ASK_RELIEF).await;
    inspector.look(page, "plan").await;
    let item = page.until("an exercise of the plan", async || {
        Some(page.script(first, vec![]).await.as_str()?.to_owned())
    });
    let item = item.await;
    for (hash, heading, name) in [
        (item.clone(), words::SWAP_EXERCISE, "exercise of the plan"),
        ("#/plan/hand".to_owned(), words::HAND_ON, "hand on a plan"),
        ("#/plan/cards".to_owned(), words::CARDS, "cards to print"),
        (
            "#/kit/spreadsheet".to_owned(),
            words::SPREADSHEET,
            "bring in a spreadsheet",
        ),
        (
            "#/kit/exercises".to_owned(),
            words::OWN_EXERCISES,
            "own exercises",
        ),
        (
            "#/kit/exercises/new".to_owned(),
            words::NEW_EXERCISE,
            "a new exercise",
        ),
        (format!("{item}/swap"), words::SWAP_FOR, "swap in the plan"),
        (
            "#/plan/0/add".to_owned(),
            words::ADD_EXERCISE,
            "add to the plan",
        ),
        (
            "#/plan/compare".to_owned(),
            words::IN_FIGURES,
            "beside another split",
        ),
        ("#/plan/shape".to_owned(), words::SHAPE, "shape of the week"),
        ("#/plan/cycle".to_owned(), words::OWN_CYCLES, "own cycles"),
    ] {
        page.script("location.hash = arguments[0]", vec![json!(hash)])
            .await;
        page.sees(heading).await;
        inspector.look(page, name).await;
    }
    page.tap(Role::Button, "Push / pull / legs").await;
    page.find(Role::Heading, words::CYCLE_DAYS).await;
    page.tap(Role::Button, words::REMOVE_CYCLE).await;
    inspector.look(page, "own cycle").await;
    page.tap(Role::Link, "1. Push").await;
    page.find(Role::Heading, words::PLACES_OF_DAY).await;
    inspector.look(page, "day of an own cycle").await;
    page.tap(Role::Link, words::BACK).await;
    page.tap(Role::Button, words::PICK_MYSELF).await;
    page.find(Role::Heading, words::YOUR_WEEK).await;
    page.find(Role::Button, words::UNDO).await;
    page.tap(Role::Disclosure, words::THIS_DAY).await;
    // What stands under the bar of edits can be scrolled out from under it.
    let end = "scrollTo(0, document.scrollingElement.scrollHeight)";
    page.script(end, vec![]).await;
    inspector
        .look(page, "empty plan, its findings and mends")
        .await;
    page.script("location.hash = '#/plan/0/fill/0'", vec![])
        .await;
    page.find(Role::Heading, words::ADD_EXERCISE).await;
    inspector.look(page, "place of an own cycle").await;
    Places(page).go(words::PLAN).await;
    page.tap(Role::Button, words::UNDO).await;
}

async fn kit(page: &Page, inspector: &mut Inspector) {
    let places = Places(page);
    places.go(words::KIT).await;
    page.find(Role::Heading, words::KIT).await;
    inspector.look(page, "kit and data").await;
    for name in [words::EQUIPMENT, words::LOOKS] {
        places.go_to_kit(name).await;
        page.find(Role::Heading, name).await;
        inspector.look(page, name).await;
    }
    places.go_to_kit(words::NUMBERS).await;
    page.find(Role::Heading, words::NUMBERS).await;
    inspector.look(page, "numbers").await;
    let unfold = "document.querySelectorAll('details').forEach((d) => (d.open = true))";
    page.script(unfold, vec![]).await;
    inspector.look(page, "numbers, unfolded").await;
    page.tap(Role::Link, BACK_TO_APP).await;
    places.go_to_kit(words::CAUTIONS).await;
    page.sees(words::CAUTIONS_STOP).await;
    inspector.look(page, "cautions again").await;
}

async fn data(page: &Page, journey: &journey::Journey, inspector: &mut Inspector) {
    let data = YourData(page);
    data.open().await;
    let (file, text) = data.save(journey).await;
    assert_eq!(data.read(&file).await, Answer::Offered);
    page.tap(Role::Button, words::DELETE_ALL).await;
    inspector.look(page, "backup offered, deletion asked").await;
    let cut = journey.folder().join("cut.json");
    std::fs::write(&cut, &text[..text.len() / 2]).expect("a file");
    assert!(matches!(data.read(&cut).await, Answer::Refused(_)));
    inspector.look(page, "backup refused").await;

    // Read as another's: the screens of a log under the band that says whose it is.
    Places(page).go_to_kit(others::OTHERS).await;
    page.sees(others::NOBODY).await;
    page.give_file(others::READ_THEIRS, &file).await;
    page.tap(Role::Button, others::KEEP_AND_READ).await;
    page.sees(others::NAME_FIRST).await;
    inspector.look(page, "the log of another, unnamed").await;
    page.type_into(others::WHOSE, "Ines").await;
    page.tap(Role::Button, others::KEEP_AND_READ).await;
    page.sees("You are reading Ines's log").await;
    page.sees(words::SEARCH_LOG).await;
    inspector.look(page, "the log of another").await;
    page.tap(Role::Link, words::REVIEW).await;
    page.find(Role::Heading, words::SETS_BY_MUSCLE).await;
    inspector.look(page, "the review of another").await;
    page.tap(Role::Link, words::PLAN).await;
    page.find(Role::Heading, words::CHECKED_FOR_YOU).await;
    inspector.look(page, "the plan of another").await;
    page.tap(Role::Button, others::BACK_TO_MINE).await;
    page.tap(Role::Button, others::FORGET).await;
    page.find(Role::Button, others::FORGET_SURE).await;
    inspector.look(page, "logs of others").await;
}
