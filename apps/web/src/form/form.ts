import { useState } from 'preact/hooks';
import { type Problem, problemOf } from '../api/problem.ts';

export interface Form<T extends object> {
  readonly values: T;
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
  /** Begins anew with these values. */
  readonly reset: (values: T) => void;
}

/** A form whose values are sent as a whole; what was typed stays where it is refused. */
export function useForm<T extends object>(
  initial: T,
  send: (values: T) => Promise<unknown>,
): Form<T> {
  const [begun, setBegun] = useState(initial);
  const [values, setValues] = useState(initial);
  const [problem, setProblem] = useState<Problem>();
  const [isBusy, setBusy] = useState(false);

  const faultAt = (path: string): string | undefined => {
    const found = problem?.faults.find((fault) => fault.path === path);
    return found === undefined ? undefined : `${found.message}. ${found.cure}`;
  };
  const set: Form<T>['set'] = (key, value) => setValues((was) => ({ ...was, [key]: value }));
  const submit = (event?: Event): void => {
    event?.preventDefault();
    if (isBusy) return;
    setBusy(true);
    setProblem(undefined);
    send(values).then(
      () => {
        setBusy(false);
        // Unless `send` has begun anew with what the service made of them.
        setBegun((now) => (now === begun ? values : now));
      },
      (error: unknown) => {
        setBusy(false);
        setProblem(problemOf(error));
      },
    );
  };
  return {
    values,
    isChanged: JSON.stringify(values) !== JSON.stringify(begun),
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
    reset: (fresh) => {
      setBegun(fresh);
      setValues(fresh);
      setProblem(undefined);
    },
  };
}
