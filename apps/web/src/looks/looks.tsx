import type { ComponentChildren, TargetedMouseEvent } from 'preact';
import { useEffect, useId, useRef } from 'preact/hooks';
import type { Problem } from '../api/problem.ts';
import { told } from '../show/faults.ts';
import { common } from '../texts/common.ts';
import css from './looks.module.css';

type Children = { readonly children?: ComponentChildren };
const classes = (...names: readonly (string | false | undefined)[]): string =>
  names.filter(Boolean).join(' ');

/** One thing below the other. */
export const Stack = ({ children }: Children) => <div class={css['stack']}>{children}</div>;

/** One thing beside the other, as far as there is room. */
export const Row = ({ children, apart = false }: Children & { readonly apart?: boolean }) => (
  <div class={classes(css['row'], apart && css['apart'])}>{children}</div>
);

type ButtonKind = 'do' | 'plain' | 'harm' | 'quiet';

interface ButtonProps extends Children {
  /** `do`: what the page is for; one at most beside others. `harm`: it cannot be taken back. */
  readonly kind?: ButtonKind;
  readonly wide?: boolean;
  readonly isBusy?: boolean;
  readonly disabled?: boolean;
  readonly type?: 'button' | 'submit';
  readonly label?: string;
  readonly pressed?: boolean;
  readonly onPress?: (event: MouseEvent) => void;
}

const look = (kind: ButtonKind, wide: boolean): string =>
  classes(css['button'], kind !== 'plain' && css[kind], wide && css['wide']);

export function Button({
  kind = 'plain',
  wide = false,
  isBusy = false,
  disabled = false,
  type = 'button',
  label,
  pressed,
  onPress,
  children,
}: ButtonProps) {
  return (
    <button
      type={type}
      class={look(kind, wide)}
      disabled={disabled}
      aria-disabled={isBusy}
      aria-busy={isBusy}
      aria-label={label}
      aria-pressed={pressed}
      onClick={(event) => {
        if (isBusy) event.preventDefault();
        else onPress?.(event);
      }}
    >
      {children}
    </button>
  );
}

/** A way to another page that looks like a button. */
export const ButtonLink = ({
  to,
  kind = 'plain',
  wide = false,
  children,
}: Children & { readonly to: string; readonly kind?: ButtonKind; readonly wide?: boolean }) => (
  <a href={to} class={look(kind, wide)}>
    {children}
  </a>
);

/** A sheet of paper on the ground of the page, with a heading if it has one. */
export function Panel({
  title,
  level = 2,
  children,
}: Children & { readonly title?: string; readonly level?: 2 | 3 }) {
  const id = useId();
  const Heading = level === 2 ? 'h2' : 'h3';
  return (
    <section class={css['panel']} aria-labelledby={title === undefined ? undefined : id}>
      {title !== undefined && <Heading id={id}>{title}</Heading>}
      {children}
    </section>
  );
}

export type Tone = 'plain' | 'harm' | 'heed' | 'well';

/** Something to be read. `isNews`: it has just come, and is read out. */
export const Notice = ({
  tone = 'plain',
  title,
  isNews = false,
  children,
}: Children & { readonly tone?: Tone; readonly title?: string; readonly isNews?: boolean }) => (
  <div
    class={css['notice']}
    data-tone={tone}
    role={isNews ? (tone === 'harm' ? 'alert' : 'status') : undefined}
  >
    {title !== undefined && <strong>{title}</strong>}
    {children}
  </div>
);

/** What went wrong and what to do about it; takes the focus of nobody. */
export function ProblemNotice({
  problem,
  again,
}: {
  readonly problem: Problem | undefined;
  readonly again?: () => void;
}) {
  if (problem === undefined) return null;
  const isAway = problem.isUnreachable;
  const said = told(problem);
  const [title, cure] = isAway
    ? [common.unreachable, common.unreachableCure]
    : [said.title ?? common.wrongFields(said.faults.length), said.cure];
  return (
    <Notice tone={isAway ? 'heed' : 'harm'} title={title} isNews>
      {cure !== '' && <p>{cure}</p>}
      {said.faults.length > 0 && (
        <ul>
          {said.faults.map(({ path, words }, at) => (
            <li key={at}>
              {path !== null && <code>{path}</code>} {words}
            </li>
          ))}
        </ul>
      )}
      {again !== undefined && (
        <div>
          <Button onPress={again}>{common.again}</Button>
        </div>
      )}
    </Notice>
  );
}

/** Stands where something is still being read. */
export const Busy = () => (
  <p role="status" class={css['hint']}>
    {common.loading}
  </p>
);

/** A window above the page; `Escape` and what lies outside of it close it. */
export function Dialog({
  title,
  onClose,
  children,
}: Children & { readonly title: string; readonly onClose: () => void }) {
  const box = useRef<HTMLDialogElement>(null);
  const id = useId();
  useEffect(() => {
    const dialog = box.current;
    const before = document.activeElement;
    dialog?.showModal();
    return () => {
      dialog?.close();
      if (before instanceof HTMLElement) before.focus();
    };
  }, []);
  const closeOutside = (event: TargetedMouseEvent<HTMLDialogElement>): void => {
    if (event.target === event.currentTarget) onClose();
  };
  return (
    <dialog
      ref={box}
      class={css['dialog']}
      aria-labelledby={id}
      onClick={closeOutside}
      onCancel={(event) => {
        event.preventDefault();
        onClose();
      }}
    >
      <div class={css['dialogBody']}>
        <Row apart>
          <h2 id={id}>{title}</h2>
          <Button kind="quiet" onPress={onClose}>
            {common.close}
          </Button>
        </Row>
        {children}
      </div>
    </dialog>
  );
}

/** A table that may be wider than the page; no landmark: its panel is one, often of the same name. */
export const Table = ({ caption, children }: Children & { readonly caption: string }) => (
  <div class={css['scroll']} tabIndex={0} role="group" aria-label={caption}>
    <table class={css['table']}>
      <caption class="said">{caption}</caption>
      {children}
    </table>
  </div>
);
