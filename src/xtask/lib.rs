//! Set up, build, serve, check and measure Weekloom.
//!
//! Start at [`run`], which names every command; each command is one module. [`serve`] is
//! also used by the browser journeys, which start the server in their own process.
//!
//! Nothing here is shipped: this crate runs on the machine of whoever builds the app. It
//! writes to `dist/`, to cargo's target folder and to the user's cache folder only.

pub mod arguments;
pub mod bench;
pub mod browser;
pub mod budgets;
pub mod build;
pub mod dependencies;
pub mod fit;
pub mod icons;
pub mod languages;
pub mod npm;
pub mod paths;
pub mod plan;
pub mod process;
pub mod progress;
pub mod serve;
pub mod setup;
pub mod suggest;
pub mod test;
pub mod tidy;
pub mod watch;

use std::process::ExitCode;

use anyhow::{Result, bail};

use arguments::Arguments;

const USAGE: &str = "\
usage: cargo xtask <command> [flags]

  run     set up, build, serve dist/ on this machine and rebuild on change
          --port N      first port to try (8321)
  build   write dist/
          --dev         quick build: not optimised, not for release
          --strict      a missing npm is an error
          --out DIR     another folder than dist/
  serve   serve a built folder
          --port N      exactly this port (default: first free from 8321)
          --dir DIR     another folder than dist/
          --base PATH   serve below a path such as /weekloom/
  test    every check, then one line with the count
          --ci          whatever cannot run is a failure (also: CI=true)
          --only NAME   one section
  tidy    checks on the source tree alone
  bench   sizes to target/bench/figures.json
          --start       instead, how soon the app can be used, beside the smallest app
          --years       instead, what ten and fifty years of logs cost
          --rounds N    of each of these two (5)
          --people N    instead, how near the best the planner comes for N drawn people
          --prove       keep the proofs of the first 40 in tests/oracle/proved.json
          --seconds N   of the solver for each (10)
          --trainees N  instead, a year of N simulated people by each rule of progression
          --review N    instead, what the review finds of N simulated people of each kind
          --wasm        instead, how long plans take in Chromium, its processor as it is and
                        four times slower
  gallery every screen as PNG, at three widths, light and dark, to target/gallery/
  torture kill the browser while sets are logged: what was acknowledged must be there
          --kills N     so often (200)
          --seed N      at other moments (1)
          --engine NAME in firefox or webkit instead of chromium
  suggest FILE
          what to lift next, for a history in a JSON file; `suggest --example` prints one
  plan FILE
          the week for a person in a JSON file; `plan --example` prints one
          --text            to read instead of JSON
          --compare SPLIT   beside one on another split, at equal weekly sets
  fit     the numbers of the model of freshness, from the published reps
  icons   redraw the PNG icons from public/icons/*.svg (needs Chromium)
";

/// Runs one command given by its words and flags.
///
/// Errors when the command or a flag is unknown, or when the command itself fails.
pub fn run(words: &[String]) -> Result<ExitCode> {
    let Some((command, rest)) = words.split_first() else {
        eprint!("{USAGE}");
        return Ok(ExitCode::FAILURE);
    };
    let mut arguments = Arguments::new(rest);
    match command.as_str() {
        "run" => {
            let port = arguments.number("--port")?;
            arguments.finish()?;
            watch::run(port)?;
        }
        "build" => {
            let options = build::Options::from_arguments(&mut arguments)?;
            arguments.finish()?;
            build::run(&options)?;
        }
        "serve" => {
            let port = arguments.number("--port")?;
            let dir = arguments.value("--dir")?;
            let base = arguments.value("--base")?;
            arguments.finish()?;
            serve::run(port, dir.as_deref(), base.as_deref())?;
        }
        "test" => {
            let strict = arguments.flag("--ci") || test::is_ci();
            let only = arguments.value("--only")?;
            arguments.finish()?;
            return test::run(strict, only.as_deref());
        }
        "tidy" => {
            arguments.finish()?;
            tidy::run()?;
        }
        "bench" => {
            let people = arguments.number("--people")?;
            let seconds = arguments.number("--seconds")?;
            let keeps = arguments.flag("--prove");
            let start = arguments.flag("--start");
            let years = arguments.flag("--years");
            let rounds = arguments.number("--rounds")?.unwrap_or(5);
            let in_wasm = arguments.flag("--wasm");
            let trainees = arguments.number("--trainees")?;
            let review = arguments.number("--review")?;
            arguments.finish()?;
            bench::run(&match (trainees, people, keeps) {
                _ if let Some(people) = review => bench::Measure::Review { people },
                (Some(people), ..) => bench::Measure::Trainees { people },
                _ if in_wasm => bench::Measure::Wasm,
                _ if start => bench::Measure::Start(rounds),
                _ if years => bench::Measure::Years(rounds),
                (None, None, false) => bench::Measure::Size,
                (None, people, keeps) => bench::Measure::Plans {
                    people: people.unwrap_or(40),
                    seconds,
                    keeps,
                },
            })?;
        }
        "gallery" => {
            arguments.finish()?;
            bench::browser::gallery()?;
        }
        "torture" => {
            let kills = arguments.number("--kills")?.unwrap_or(200);
            let seed = arguments.number("--seed")?.unwrap_or(1);
            let engine = match arguments.value("--engine")? {
                Some(name) => browser::Engine::named(&name)?,
                None => browser::Engine::Chromium,
            };
            arguments.finish()?;
            bench::run(&bench::Measure::Torture(engine, kills, seed))?;
        }
        "suggest" => {
            if arguments.flag("--example") {
                arguments.finish()?;
                print!("{}", suggest::EXAMPLE);
            } else {
                let file = arguments.word("a file: cargo xtask suggest FILE")?;
                arguments.finish()?;
                suggest::run(&file)?;
            }
        }
        "plan" => {
            if arguments.flag("--example") {
                arguments.finish()?;
                print!("{}", plan::EXAMPLE);
            } else {
                let as_text = arguments.flag("--text");
                let compare = arguments.value("--compare")?;
                let file = arguments.word("a file: cargo xtask plan FILE")?;
                arguments.finish()?;
                plan::run(&file, as_text, compare.as_deref())?;
            }
        }
        "fit" => {
            arguments.finish()?;
            fit::run();
        }
        "icons" => {
            arguments.finish()?;
            icons::run()?;
        }
        "help" | "--help" | "-h" => print!("{USAGE}"),
        other => bail!("unknown command '{other}'\n\n{USAGE}"),
    }
    Ok(ExitCode::SUCCESS)
}
