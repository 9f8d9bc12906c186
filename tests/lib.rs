//! Golden cases, evidence tables, saved files and browser journeys.
