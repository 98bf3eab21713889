//! Many recipes at once: lines go to the threads as they come, answers come back in the order of the lines.

use std::collections::{BTreeMap, VecDeque};
use std::sync::{Arc, Condvar, Mutex, MutexGuard, PoisonError};
use std::thread::{self, JoinHandle};

use lamella::Failure;
use lamella::document::{self, Answer};
use lamella::recipe::Limits;

use crate::boundary::told;
use crate::status::lamella_status;

/// Bytes that the source is asked for at a time.
const CHUNK: usize = 1 << 16;
// Threads meet by a lock and conditions: a channel, and threads in a scope, would leave something behind in the thread
// of the caller that tools for leaks report.

/// A thread takes lines by the bundle, of so many or until there are so many bytes: a line alone is answered nearly as
/// soon as a sleeping thread is woken for it.
const BUNDLE: usize = 32;
const BUNDLE_BYTES: usize = 1 << 17;
/// Bundles that are held for each thread: one that it works on, and some more so that none waits for a slow one.
const HELD: usize = 4;

/// What is to be done with the lines.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Order {
    pub(crate) most: Limits,
    pub(crate) answer: Answer,
    pub(crate) threads: usize,
}

/// A line of the stream.
#[derive(Debug, PartialEq, Eq)]
enum Line {
    Text(Vec<u8>),
    /// Longer than the limit: its length, the bytes forgotten.
    TooLong(usize),
}

impl Order {
    /// The answer to a line. A panic would be a mistake of this library; it stays within its line.
    fn answer(self, line: Line) -> String {
        let mut text = String::new();
        let (_, failure) = told(|| {
            match line {
                Line::Text(line) => text = document::line(&line, self.most, self.answer),
                Line::TooLong(bytes) => return Err(vec![self.most.too_long(bytes)].into()),
            }
            Ok(())
        });
        failure.as_ref().map(Failure::to_line).unwrap_or(text)
    }
}

/// Answers all lines that `more` gives, each to `put`.
pub(crate) fn stream(
    order: Order,
    more: impl FnMut(&mut [u8]) -> Result<usize, lamella_status>,
    mut put: impl FnMut(&str) -> Result<(), lamella_status>,
) -> Result<(), lamella_status> {
    let mut lines = Lines::new(more, order.most.document_bytes);
    let crew = Crew::start(order);
    if crew.threads.is_empty() { alone(order, &mut lines, &mut put) } else { crew.work(&mut lines, &mut put) }
}

type More<'m> = dyn FnMut(&mut [u8]) -> Result<usize, lamella_status> + 'm;
type Put<'p> = dyn FnMut(&str) -> Result<(), lamella_status> + 'p;

fn alone(order: Order, lines: &mut Lines<'_>, put: &mut Put<'_>) -> Result<(), lamella_status> {
    while let Some(line) = lines.next()? {
        put(&order.answer(line))?;
    }
    Ok(())
}

/// What the threads of a crew share.
#[derive(Default)]
struct Bench {
    state: Mutex<State>,
    /// A bundle is there, or no more will come.
    bundle: Condvar,
    /// Answers are there.
    answer: Condvar,
}

#[derive(Default)]
struct State {
    bundles: VecDeque<(u64, Vec<Line>)>,
    answers: BTreeMap<u64, Vec<String>>,
    ended: bool,
}

impl Bench {
    fn state(&self) -> MutexGuard<'_, State> {
        self.state.lock().unwrap_or_else(PoisonError::into_inner)
    }

    fn put_bundle(&self, number: u64, bundle: Vec<Line>) {
        self.state().bundles.push_back((number, bundle));
        self.bundle.notify_one();
    }

    /// The next bundle for a thread; nothing when it may go.
    fn next_bundle(&self) -> Option<(u64, Vec<Line>)> {
        let mut state = self.state();
        loop {
            if state.ended {
                return None;
            }
            if let Some(bundle) = state.bundles.pop_front() {
                return Some(bundle);
            }
            state = self.bundle.wait(state).unwrap_or_else(PoisonError::into_inner);
        }
    }

    fn put_answers(&self, number: u64, answers: Vec<String>) {
        self.state().answers.insert(number, answers);
        self.answer.notify_one();
    }

    /// The answers to a bundle that was put.
    fn answers_to(&self, number: u64) -> Vec<String> {
        let mut state = self.state();
        loop {
            if let Some(answers) = state.answers.remove(&number) {
                return answers;
            }
            state = self.answer.wait(state).unwrap_or_else(PoisonError::into_inner);
        }
    }
}

/// Threads that answer lines. They are gone when the crew is.
struct Crew {
    bench: Arc<Bench>,
    threads: Vec<JoinHandle<()>>,
}

impl Crew {
    /// Starts the threads, or as many as the system gives; none for one, which is the calling thread.
    fn start(order: Order) -> Self {
        let bench = Arc::new(Bench::default());
        let mut threads = Vec::new();
        for _ in 0..if order.threads > 1 { order.threads } else { 0 } {
            let bench = Arc::clone(&bench);
            let work = move || {
                while let Some((number, bundle)) = bench.next_bundle() {
                    let answers = bundle.into_iter().map(|line| order.answer(line));
                    bench.put_answers(number, answers.collect());
                }
            };
            threads.extend(thread::Builder::new().spawn(work));
        }
        Self { bench, threads }
    }

    fn work(&self, lines: &mut Lines<'_>, put: &mut Put<'_>) -> Result<(), lamella_status> {
        let held = self.threads.len().saturating_mul(HELD) as u64;
        let (mut taken, mut given) = (0_u64, 0_u64);
        let mut ended = false;
        loop {
            while !ended && taken.saturating_sub(given) < held {
                let bundle = lines.bundle()?;
                ended = bundle.is_empty();
                if !ended {
                    self.bench.put_bundle(taken, bundle);
                    taken = taken.saturating_add(1);
                }
            }
            if taken == given {
                return Ok(());
            }
            for answer in self.bench.answers_to(given) {
                put(&answer)?;
            }
            given = given.saturating_add(1);
        }
    }
}

impl Drop for Crew {
    fn drop(&mut self) {
        self.bench.state().ended = true;
        self.bench.bundle.notify_all();
        for thread in self.threads.drain(..) {
            // A thread does not panic: what it answers is behind the wall.
            let _ = thread.join();
        }
    }
}

/// Divides what a source gives into lines.
struct Lines<'m> {
    more: Box<More<'m>>,
    most: usize,
    chunk: Vec<u8>,
    /// What of the chunk is not yet taken.
    rest: std::ops::Range<usize>,
    ended: bool,
}

impl<'m> Lines<'m> {
    fn new(more: impl FnMut(&mut [u8]) -> Result<usize, lamella_status> + 'm, most: usize) -> Self {
        Self { more: Box::new(more), most, chunk: vec![0; CHUNK], rest: 0..0, ended: false }
    }

    /// The next lines, for a thread; none at the end.
    fn bundle(&mut self) -> Result<Vec<Line>, lamella_status> {
        let (mut bundle, mut bytes) = (Vec::new(), 0_usize);
        while bundle.len() < BUNDLE && bytes < BUNDLE_BYTES {
            let Some(line) = self.next()? else { break };
            if let Line::Text(text) = &line {
                bytes = bytes.saturating_add(text.len());
            }
            bundle.push(line);
        }
        Ok(bundle)
    }

    /// The next line, without its newline.
    fn next(&mut self) -> Result<Option<Line>, lamella_status> {
        let mut line = Vec::new();
        let mut len = 0_usize;
        let mut begun = false;
        loop {
            if self.rest.is_empty() && !self.ended {
                let got = (self.more)(&mut self.chunk)?;
                self.rest = 0..got;
                self.ended = got == 0;
            }
            if self.rest.is_empty() {
                return Ok(begun.then(|| self.whole(line, len)));
            }
            begun = true;
            let rest = self.chunk.get(self.rest.clone()).unwrap_or(&[]);
            let end = rest.iter().position(|byte| *byte == b'\n');
            let part = rest.get(..end.unwrap_or(rest.len())).unwrap_or(rest);
            len = len.saturating_add(part.len());
            if len <= self.most {
                line.extend_from_slice(part);
            }
            let taken = part.len().saturating_add(usize::from(end.is_some()));
            self.rest.start = self.rest.start.saturating_add(taken);
            if end.is_some() {
                return Ok(Some(self.whole(line, len)));
            }
        }
    }

    fn whole(&self, line: Vec<u8>, len: usize) -> Line {
        if len > self.most { Line::TooLong(len) } else { Line::Text(line) }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn lines(text: &str, portion: usize, most: usize) -> Vec<Line> {
        let mut portions = text.as_bytes().chunks(portion);
        let more = move |buffer: &mut [u8]| {
            let Some(portion) = portions.next() else { return Ok(0) };
            buffer[..portion.len()].copy_from_slice(portion);
            Ok(portion.len())
        };
        let mut lines = Lines::new(more, most);
        std::iter::from_fn(|| lines.next().unwrap()).collect()
    }

    #[test]
    fn lines_come_whole_however_they_are_divided() {
        let text = |text: &str| Line::Text(text.as_bytes().to_vec());
        for portion in 1..9 {
            assert_eq!(lines("ab\n\ncdef", portion, 4), [text("ab"), text(""), text("cdef")]);
            assert_eq!(lines("ab\nabcde\n\n", portion, 4), [text("ab"), Line::TooLong(5), text("")]);
            assert_eq!(lines("", portion, 4), []);
        }
    }

    #[test]
    fn the_order_is_kept_and_a_bad_line_harms_no_other() {
        let example = lamella::EXAMPLE.replace('\n', " ");
        let text = format!("{example}\nnonsense\n\n{example}\n").repeat(20);
        let all = |threads| {
            let mut portions = text.as_bytes().chunks(1000);
            let mut answers = Vec::new();
            let more = |buffer: &mut [u8]| {
                let Some(portion) = portions.next() else { return Ok(0) };
                buffer[..portion.len()].copy_from_slice(portion);
                Ok(portion.len())
            };
            let put = |line: &str| {
                answers.push(line.to_owned());
                Ok(())
            };
            let order = Order { most: Limits::default(), answer: Answer::Check, threads };
            stream(order, more, put).unwrap();
            answers
        };
        let one = all(1);
        assert_eq!(one.len(), 80);
        assert!(one.iter().all(|line| line.ends_with('\n') && !line.trim_end().contains('\n')));
        assert!(one[0].starts_with("{\"lamella\":\"check/1\"") && one[1].contains("document.json"));
        assert_eq!(all(3), one);
    }

    #[test]
    fn a_callback_ends_it() {
        let order = Order { most: Limits::default(), answer: Answer::Check, threads: 2 };
        let endless = |buffer: &mut [u8]| {
            buffer.fill(b'\n');
            Ok(buffer.len())
        };
        let mut left = 100;
        let put = |_: &str| {
            left -= 1;
            if left == 0 { Err(lamella_status::LAMELLA_STOPPED) } else { Ok(()) }
        };
        assert_eq!(stream(order, endless, put), Err(lamella_status::LAMELLA_STOPPED));
        let refused = |_: &mut [u8]| Err(lamella_status::LAMELLA_STOPPED);
        assert_eq!(stream(order, refused, |_: &str| Ok(())), Err(lamella_status::LAMELLA_STOPPED));
    }
}
