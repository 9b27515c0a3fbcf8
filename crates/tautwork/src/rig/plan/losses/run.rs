//! Cases on all cores, with the same results in the same order as on one.

use std::ops::ControlFlow;

/// The answer of each case. `seen` hears of the cases in their order, as soon as all before are done; if it
/// breaks, the number of cases heard of is the error.
pub(super) fn each<T: Send>(
    count: usize,
    work: impl Fn(usize) -> T + Sync,
    seen: &mut dyn FnMut(usize) -> ControlFlow<()>,
) -> Result<Vec<T>, usize> {
    #[cfg(not(target_family = "wasm"))]
    {
        let cores = std::thread::available_parallelism().map_or(1, std::num::NonZero::get);
        let threads = cores.min(count);
        if threads > 1 {
            return threaded(threads, count, work, seen);
        }
    }
    serial(count, work, seen)
}

fn serial<T>(
    count: usize,
    work: impl Fn(usize) -> T,
    seen: &mut dyn FnMut(usize) -> ControlFlow<()>,
) -> Result<Vec<T>, usize> {
    let mut answers = Vec::with_capacity(count);
    for i in 0..count {
        answers.push(work(i));
        if seen(i).is_break() {
            return Err(i + 1);
        }
    }
    Ok(answers)
}

#[cfg(not(target_family = "wasm"))]
fn threaded<T: Send>(
    threads: usize,
    count: usize,
    work: impl Fn(usize) -> T + Sync,
    seen: &mut dyn FnMut(usize) -> ControlFlow<()>,
) -> Result<Vec<T>, usize> {
    use std::sync::atomic::{AtomicUsize, Ordering};
    use std::sync::mpsc;

    let (next, work) = (&AtomicUsize::new(0), &work);
    let mut answers: Vec<Option<T>> = (0..count).map(|_| None).collect();
    let mut done = 0;
    std::thread::scope(|scope| {
        let (sender, receiver) = mpsc::channel();
        for _ in 0..threads {
            let sender = sender.clone();
            scope.spawn(move || {
                loop {
                    let i = next.fetch_add(1, Ordering::Relaxed);
                    // Nobody listens any more once the caller has had enough.
                    if i >= count || sender.send((i, work(i))).is_err() {
                        break;
                    }
                }
            });
        }
        drop(sender);
        for (i, answer) in receiver {
            answers[i] = Some(answer);
            while answers.get(done).is_some_and(Option::is_some) {
                done += 1;
                if seen(done - 1).is_break() {
                    // Cases at work are finished, none is begun.
                    next.store(count, Ordering::Relaxed);
                    return Err(done);
                }
            }
        }
        Ok(())
    })?;
    Ok(answers.into_iter().flatten().collect())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn threads_answer_as_one_does_and_in_order() {
        let work = |i: usize| i * i;
        let mut heard = Vec::new();
        let one = serial(100, work, &mut |_| ControlFlow::Continue(())).unwrap();
        let many = threaded(3, 100, work, &mut |i| {
            heard.push(i);
            ControlFlow::Continue(())
        });
        assert_eq!(one, many.unwrap());
        assert_eq!(heard, (0..100).collect::<Vec<_>>());
        let stop = |i| if i == 4 { ControlFlow::Break(()) } else { ControlFlow::Continue(()) };
        assert_eq!(threaded(3, 100, work, &mut { stop }), Err(5));
        assert_eq!(serial(100, work, &mut { stop }), Err(5));
        assert_eq!(each(0, work, &mut |_| ControlFlow::Continue(())), Ok(vec![]));
    }
}
