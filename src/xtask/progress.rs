//! One line per step: which of how many, and the time since the start.

use std::time::Instant;

/// Counts the steps of a command.
pub struct Progress {
    begun: Instant,
    step: usize,
    steps: usize,
}

impl Progress {
    /// Starts the clock for this many steps.
    pub fn new(steps: usize) -> Self {
        Self {
            begun: Instant::now(),
            step: 0,
            steps,
        }
    }

    /// Says what begins now.
    pub fn step(&mut self, what: &str) {
        self.step += 1;
        let seconds = self.begun.elapsed().as_secs();
        println!(
            "[{}/{} {}:{:02}] {what}",
            self.step,
            self.steps,
            seconds / 60,
            seconds % 60
        );
    }

    /// A remark on the present step.
    pub fn note(&self, what: &str) {
        println!("        {what}");
    }
}
