import { useRef, useState } from 'preact/hooks';
import { once } from '../api/client.ts';
import { type Problem, problemOf } from '../api/problem.ts';
import { faultBeside } from '../show/faults.ts';
import { same } from './same.ts';
import { Sending } from './sending.ts';

export interface Form<T extends object> {
  readonly values: T;
  /** As `values`, and still the newest after an answer was waited for. */
  readonly latest: { readonly current: T };
  /** The values differ from those it began with. */
  readonly isChanged: boolean;
  readonly isBusy: boolean;
  /** Why it was not taken; what is wrong with a field stands at the field too. */
  readonly problem: Problem | undefined;
  readonly set: <K extends keyof T>(key: K, value: T[K]) => void;
  /** What is wrong with the field at this path of what was sent, `shifts[0].from`. */
  readonly faultAt: (path: string) => string | undefined;
  /** `<TextField {...form.at('name')} label=… />` */
  readonly at: <K extends keyof T & string>(
    key: K,
  ) => { value: T[K]; onValue: (value: T[K]) => void; fault: string | undefined };
  readonly submit: (event?: Event) => void;
  /** Begins anew with these values; `typed`: what stands in it instead, not saved. */
  readonly reset: (values: T, typed?: T) => void;
}

/**
 * A form whose values are sent as a whole; what was typed stays where it is refused. `headers` go
 * with a command that is to be done once, however often it is pressed before its answer comes.
 */
export function useForm<T extends object>(
  initial: T,
  send: (values: T, headers: ReturnType<typeof once>) => Promise<unknown>,
  typed: T = initial,
): Form<T> {
  const [begun, setBegun] = useState(initial);
  const [values, setValues] = useState(typed);
  const latest = useRef(typed);
  /** How often it has begun anew. */
  const resets = useRef(0);
  const [problem, setProblem] = useState<Problem>();
  const [isBusy, setBusy] = useState(false);
  const sending = useRef(new Sending<T>()).current;

  const faultAt = (path: string): string | undefined => faultBeside(problem, path);
  const show = (now: T): void => {
    latest.current = now;
    setValues(now);
  };
  const set: Form<T>['set'] = (key, value) => show({ ...latest.current, [key]: value });
  const submit = (event?: Event): void => {
    event?.preventDefault();
    if (isBusy) return;
    setBusy(true);
    setProblem(undefined);
    const before = resets.current;
    sending
      .send(values, ({ key }) => send(values, once(key)))
      .then(
        () => {
          setBusy(false);
          // Unless `send` has begun anew with what the service made of them.
          if (resets.current === before) setBegun(values);
        },
        (error: unknown) => {
          setBusy(false);
          setProblem(problemOf(error));
        },
      );
  };
  return {
    values,
    latest,
    isChanged: !same(values, begun),
    isBusy,
    problem,
    set,
    faultAt,
    at: (key) => ({
      value: values[key],
      onValue: (value) => set(key, value),
      fault: faultAt(key),
    }),
    submit,
    reset: (fresh, now = fresh) => {
      resets.current += 1;
      setBegun(fresh);
      show(now);
      setProblem(undefined);
    },
  };
}
