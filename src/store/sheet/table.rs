//! Text into rows and cells, whatever the spreadsheet put between them.

use std::fmt;

/// A file larger than this is no training log: ten years of sets, a line each,
/// take about 5 MB. Check the size before reading it.
pub const MOST_BYTES: usize = 12 * 1024 * 1024;
/// Most rows read.
pub const MOST_ROWS: usize = 100_000;
/// Most columns read.
pub const MOST_COLUMNS: usize = 40;
/// Most bytes of a cell. A quote that is not closed by then never was one.
const MOST_CELL: usize = 2_000;
/// What may stand between cells, the likeliest first.
const DELIMITERS: [char; 4] = [',', ';', '\t', '|'];
/// Rows looked at to find it.
const LOOKED_AT: usize = 60;

/// A file was refused. Nothing was changed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum TableError {
    /// More than [`MOST_BYTES`].
    TooLarge(usize),
    /// More than [`MOST_ROWS`].
    TooLong,
    /// Nothing but blanks.
    Empty,
    /// Not text in UTF-8.
    NotText,
}

impl fmt::Display for TableError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::TooLarge(bytes) => write!(
                f,
                "the file has {bytes} bytes, at most {MOST_BYTES} are read; split it by years"
            ),
            Self::TooLong => write!(
                f,
                "the file has more than {MOST_ROWS} rows; split it by years"
            ),
            Self::Empty => f.write_str("the file is empty; choose another"),
            Self::NotText => f.write_str(
                "the file is not text in UTF-8; save the spreadsheet as CSV (UTF-8) and choose that",
            ),
        }
    }
}

impl std::error::Error for TableError {}

/// One row.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Row {
    /// Line of the file it begins on, from 1.
    pub line: usize,
    /// Its cells, blanks around them taken off.
    pub cells: Vec<String>,
}

/// A row that cannot be told apart from its neighbours.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Torn {
    /// Line of the file it begins on, from 1.
    pub line: usize,
    /// Why.
    pub why: WhyTorn,
}

/// Why a row cannot be read.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum WhyTorn {
    /// A quote is opened and not closed.
    Unclosed,
    /// More than [`MOST_COLUMNS`] cells, or a cell of more than 2000 bytes.
    TooMuch,
}

/// The rows of a file.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Table {
    /// What stands between cells.
    pub delimiter: char,
    /// Rows with anything in them, the head included.
    pub rows: Vec<Row>,
    /// Rows that could not be read.
    pub torn: Vec<Torn>,
}

impl Table {
    /// Reads a file: what stands between cells is found out, cells may be in
    /// quotes (RFC 4180), lines end in any of the usual ways.
    ///
    /// # Errors
    /// [`TableError`] when it is too large, empty or no text.
    pub fn read(text: &str) -> Result<Self, TableError> {
        if text.len() > MOST_BYTES {
            return Err(TableError::TooLarge(text.len()));
        }
        let text = text.strip_prefix('\u{feff}').unwrap_or(text);
        if text.trim().is_empty() {
            return Err(TableError::Empty);
        }
        if text.contains(['\0', '\u{fffd}']) {
            return Err(TableError::NotText);
        }
        let table = Self::split(text, likely_delimiter(text), MOST_ROWS + 1);
        if table.rows.len() > MOST_ROWS {
            return Err(TableError::TooLong);
        }
        Ok(table)
    }

    fn split(text: &str, delimiter: char, most: usize) -> Self {
        let mut table = Self {
            delimiter,
            rows: Vec::new(),
            torn: Vec::new(),
        };
        let mut reader = Reader {
            text,
            at: 0,
            line: 1,
        };
        while reader.at < text.len() && table.rows.len() + table.torn.len() < most {
            let (start, line) = (reader.at, reader.line);
            match reader.row(delimiter) {
                Ok(cells) if cells.iter().all(String::is_empty) => {}
                Ok(cells) => table.rows.push(Row { line, cells }),
                Err(why) => {
                    table.torn.push(Torn { line, why });
                    // From the next line on, as if nothing had been opened.
                    (reader.at, reader.line) = (start, line);
                    reader.pass_line();
                }
            }
        }
        table
    }

    /// Most cells of a row.
    #[must_use]
    pub fn width(&self) -> usize {
        self.rows
            .iter()
            .map(|row| row.cells.len())
            .max()
            .unwrap_or(0)
    }
}

/// The sign that cuts most of the first rows into equally many cells.
fn likely_delimiter(text: &str) -> char {
    let mut best = (DELIMITERS[0], (0, 0));
    for delimiter in DELIMITERS {
        let table = Table::split(text, delimiter, LOOKED_AT);
        let widths = || table.rows.iter().map(|row| row.cells.len());
        for width in 2..=widths().max().unwrap_or(0) {
            let fitting = widths().filter(|w| *w == width).count();
            if (fitting, width) > best.1 {
                best = (delimiter, (fitting, width));
            }
        }
    }
    best.0
}

struct Reader<'a> {
    text: &'a str,
    at: usize,
    line: usize,
}

impl Reader<'_> {
    fn next(&mut self) -> Option<char> {
        let c = self.text[self.at..].chars().next()?;
        self.at += c.len_utf8();
        // A line may end in CR, LF or both.
        if c == '\n' || (c == '\r' && !self.text[self.at..].starts_with('\n')) {
            self.line += 1;
        }
        Some(c)
    }

    fn pass_line(&mut self) {
        while let Some(c) = self.next() {
            let is_half = c == '\r' && self.text[self.at..].starts_with('\n');
            if matches!(c, '\n' | '\r') && !is_half {
                return;
            }
        }
    }

    fn row(&mut self, delimiter: char) -> Result<Vec<String>, WhyTorn> {
        let mut cells = Vec::new();
        let mut cell = String::new();
        loop {
            let is_start = cell.trim().is_empty();
            match self.next() {
                Some('"') if is_start => {
                    cell.clear();
                    self.quoted(&mut cell)?;
                }
                Some('\r') if self.text[self.at..].starts_with('\n') => {}
                Some(c) if c == delimiter => {
                    cells.push(cell.trim().to_owned());
                    cell.clear();
                }
                end @ (None | Some('\n' | '\r')) => {
                    let _ = end;
                    cells.push(cell.trim().to_owned());
                    return Ok(cells);
                }
                Some(c) => cell.push(c),
            }
            if cells.len() >= MOST_COLUMNS || cell.len() > MOST_CELL {
                return Err(WhyTorn::TooMuch);
            }
        }
    }

    /// The rest of a cell in quotes, the closing one included. What follows it
    /// up to the next cell belongs to the cell.
    fn quoted(&mut self, cell: &mut String) -> Result<(), WhyTorn> {
        while cell.len() <= MOST_CELL {
            match self.next() {
                Some('"') if self.text[self.at..].starts_with('"') => {
                    self.at += 1;
                    cell.push('"');
                }
                Some('"') => return Ok(()),
                Some(c) => cell.push(c),
                None => break,
            }
        }
        Err(WhyTorn::Unclosed)
    }
}
