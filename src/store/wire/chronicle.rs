//! Blocks, changes of past sessions, and the body's weight.

use super::part::{COUNT, bound, count, load, narrow, note, number, session_id};
use crate::chronicle::{
    Amendment, Chronicle, MOST_AMENDMENTS, MOST_BLOCKS, MOST_WEIGHINGS, Remark, SetNumbers,
    Weighing,
};
use crate::json::{Json, Misfit, Read, Reader, Unknown, comma, field, list, name, numbers};
use weekloom_engine::bounds::{self, Bound};
use weekloom_engine::calendar::Day;
use weekloom_engine::review::{BLOCK_WEEKS, Block, Goal};
use weekloom_engine::units::Load;

#[expect(clippy::cast_possible_wrap, reason = "a few thousand")]
const BLOCKS: Bound = bound("blocks", 0, MOST_BLOCKS as i64);
#[expect(clippy::cast_possible_wrap, reason = "a few thousand")]
const AMENDMENTS: Bound = bound("changes of past sessions", 0, MOST_AMENDMENTS as i64);
#[expect(clippy::cast_possible_wrap, reason = "a few thousand")]
const WEIGHINGS: Bound = bound("weighings", 0, MOST_WEIGHINGS as i64);
const GOALS: Bound = bound("goals of a block", 0, 10);
const PLACE: Bound = bound("place", 0, 200);

impl Json for Chronicle {
    fn read(reader: &mut Reader<'_>) -> Read<Self> {
        let names = &["blocks", "amendments", "weighings", "remarks"];
        let mut fields = reader.fields(names, Unknown::Refused)?;
        let mut chronicle = Self::default();
        let blocks = fields.needed(|r| r.each(Block::read))?;
        count(BLOCKS, blocks.len())?;
        for block in blocks {
            let start = block.start;
            if chronicle.blocks.insert(start, block).is_some() {
                return Err(Misfit::value("two blocks begin on one day").inside("blocks"));
            }
        }
        chronicle.amendments = fields.needed(|r| r.each(Amendment::read))?;
        count(AMENDMENTS, chronicle.amendments.len())?;
        let weighings = fields.maybe(|r| r.each(weighing))?.unwrap_or_default();
        count(WEIGHINGS, weighings.len())?;
        for (day, weighing) in weighings {
            if chronicle.weighings.insert(day, weighing).is_some() {
                return Err(Misfit::value("two weighings on one day").inside("weighings"));
            }
        }
        chronicle.remarks = fields.maybe(|r| r.each(Remark::read))?.unwrap_or_default();
        count(AMENDMENTS, chronicle.remarks.len())?;
        fields.done();
        Ok(chronicle)
    }

    fn write(&self, out: &mut String) {
        let blocks: Vec<&Block> = self.blocks.values().collect();
        out.push('{');
        name(out, "blocks");
        list(out, &blocks, |block, out| block.write(out));
        name(out, "amendments");
        list(out, &self.amendments, |amendment, out| amendment.write(out));
        let weighings: Vec<(&Day, &Weighing)> = self.weighings.iter().collect();
        // Left out until something is said: files of before stay as they are.
        if !weighings.is_empty() {
            name(out, "weighings");
            list(out, &weighings, |(day, weighing), out| {
                out.push('[');
                day.write(out);
                comma(out);
                weighing.at.write(out);
                comma(out);
                weighing.weight.map(Load::grams).write(out);
                out.push(']');
            });
        }
        if !self.remarks.is_empty() {
            name(out, "remarks");
            list(out, &self.remarks, |remark, out| remark.write(out));
        }
        out.push('}');
    }
}

/// A list: first day, weeks, lighter week from nought or null, goals.
impl Json for Block {
    fn read(reader: &mut Reader<'_>) -> Read<Self> {
        reader.first()?;
        let start = Json::read(reader)?;
        reader.then()?;
        let weeks: u8 = number(reader, BLOCK_WEEKS)?;
        reader.then()?;
        let lighter = reader.or_null(|r| number::<u8>(r, bound("lighter week", 0, 11)))?;
        reader.then()?;
        let goals = reader.each(Goal::read)?;
        count(GOALS, goals.len())?;
        reader.last()?;
        if lighter.is_some_and(|lighter| lighter >= weeks) {
            return Err(Misfit::value("the lighter week lies behind the block"));
        }
        Ok(Self {
            start,
            weeks,
            lighter,
            goals,
        })
    }

    fn write(&self, out: &mut String) {
        out.push('[');
        self.start.write(out);
        comma(out);
        i64::from(self.weeks).write(out);
        comma(out);
        self.lighter.map(i64::from).write(out);
        comma(out);
        list(out, &self.goals, |goal, out| goal.write(out));
        out.push(']');
    }
}

/// `"every-session"`, or one of `rise`, `sets` and `no-pain` with what it is of.
impl Json for Goal {
    fn read(reader: &mut Reader<'_>) -> Read<Self> {
        let (form, holds_more) = reader.variant()?;
        let goal = match (form.as_str(), holds_more) {
            ("every-session", false) => Self::EverySession,
            ("rise", true) => Self::Rise(Json::read(reader)?),
            ("sets", true) => Self::Sets(Json::read(reader)?),
            ("no-pain", true) => Self::NoPain(Json::read(reader)?),
            _ => return reader.unknown_variant(&form),
        };
        reader.end_of_variant(holds_more)?;
        Ok(goal)
    }

    fn write(&self, out: &mut String) {
        let form = match self {
            Self::EverySession => return crate::json::text(out, "every-session"),
            Self::Rise(_) => "rise",
            Self::Sets(_) => "sets",
            Self::NoPain(_) => "no-pain",
        };
        out.push('{');
        match self {
            Self::Sets(muscle) => field(out, form, muscle),
            Self::Rise(id) | Self::NoPain(id) => field(out, form, id),
            Self::EverySession => {}
        }
        out.push('}');
    }
}

/// A list: session, moment, exercise, item, set, what it was, what it became;
/// each of the last two as `[grams, count, rir or null]` or null, not both null.
impl Json for Amendment {
    fn read(reader: &mut Reader<'_>) -> Read<Self> {
        reader.first()?;
        let session = session_id(reader)?;
        reader.then()?;
        let at = Json::read(reader)?;
        reader.then()?;
        let exercise = Json::read(reader)?;
        reader.then()?;
        let item = number(reader, PLACE)?;
        reader.then()?;
        let set = number(reader, PLACE)?;
        reader.then()?;
        let was = reader.or_null(set_numbers)?;
        reader.then()?;
        let now = reader.or_null(set_numbers)?;
        reader.last()?;
        if was.is_none() && now.is_none() {
            return Err(Misfit::value("nothing was changed"));
        }
        Ok(Self {
            session,
            at,
            exercise,
            item,
            set,
            was,
            now,
        })
    }

    fn write(&self, out: &mut String) {
        out.push('[');
        self.session.write(out);
        comma(out);
        self.at.write(out);
        comma(out);
        self.exercise.write(out);
        comma(out);
        i64::from(self.item).write(out);
        comma(out);
        i64::from(self.set).write(out);
        for set in [self.was, self.now] {
            comma(out);
            let Some((load, count, rir)) = set else {
                out.push_str("null");
                continue;
            };
            let list = [Some(load.grams()), Some(count.into()), rir.map(i64::from)];
            numbers(out, &list);
        }
        out.push(']');
    }
}

/// A list: session, moment, item, the note it had, the discomfort it had or null.
impl Json for Remark {
    fn read(reader: &mut Reader<'_>) -> Read<Self> {
        reader.first()?;
        let session = session_id(reader)?;
        reader.then()?;
        let at = Json::read(reader)?;
        reader.then()?;
        let item = number(reader, PLACE)?;
        reader.then()?;
        let note = note(reader)?;
        reader.then()?;
        let discomfort = Json::read(reader)?;
        reader.last()?;
        Ok(Self {
            session,
            at,
            item,
            note,
            discomfort,
        })
    }

    fn write(&self, out: &mut String) {
        out.push('[');
        self.session.write(out);
        comma(out);
        self.at.write(out);
        comma(out);
        i64::from(self.item).write(out);
        comma(out);
        self.note.write(out);
        comma(out);
        self.discomfort.write(out);
        out.push(']');
    }
}

/// A list: day, moment, grams or null.
fn weighing(reader: &mut Reader<'_>) -> Read<(Day, Weighing)> {
    reader.first()?;
    let day = Json::read(reader)?;
    reader.then()?;
    let at = Json::read(reader)?;
    reader.then()?;
    let grams = reader.or_null(|r| number::<i64>(r, bounds::BODY_G))?;
    reader.last()?;
    let weight = grams.map(load).transpose()?;
    Ok((day, Weighing { at, weight }))
}

fn set_numbers(reader: &mut Reader<'_>) -> Read<SetNumbers> {
    let set: Vec<Option<i64>> = Vec::read(reader)?;
    match set[..] {
        [Some(grams), Some(reps), rir] => Ok((
            load(grams)?,
            narrow(COUNT, reps)?,
            rir.map(|rir| narrow(bounds::RIR, rir)).transpose()?,
        )),
        _ => Err(Misfit::value("it is not 3 numbers")),
    }
}
