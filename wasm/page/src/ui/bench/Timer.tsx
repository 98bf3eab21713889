// A timer at the bench.
import { useEffect, useState } from 'preact/hooks';
import { kept, work } from '../../store';

const MINUTES = [1, 5, 10, 15, 30, 60];

/** A timer that goes on while the page is closed. */
export function Timer({ of }: { of: string }) {
  const timer = kept().bench.timers[of];
  const [now, setNow] = useState(Date.now());
  useEffect(() => {
    if (!timer) return;
    setNow(Date.now());
    const tick = setInterval(() => setNow(Date.now()), 500);
    return () => clearInterval(tick);
  }, [timer]);
  const left = timer ? Math.ceil((timer.ends - now) / 1000) : 0;
  const over = timer !== undefined && left <= 0;
  useEffect(() => {
    if (over) navigator.vibrate?.([200, 100, 200]);
  }, [over]);
  const start = (minutes: number) =>
    work((bench) => ({ ...bench, timers: { ...bench.timers, [of]: { ends: Date.now() + minutes * 60_000, minutes } } }));
  const clock = (seconds: number) =>
    `${Math.floor(Math.abs(seconds) / 60)}:${String(Math.abs(seconds) % 60).padStart(2, '0')}`;
  return (
    <div class="timer">
      {timer && (
        <p class={over ? 'clock over' : 'clock'} role="timer">
          {over ? `over for ${clock(left)}` : clock(left)}
        </p>
      )}
      {over && (
        <p class="unseen" role="alert">
          The time is over.
        </p>
      )}
      <div class="minutes" role="group" aria-label="Set a timer">
        {MINUTES.map((minutes) => (
          <button key={minutes} type="button" onClick={() => start(minutes)}>
            {minutes} min
          </button>
        ))}
      </div>
    </div>
  );
}
