/** What the script did and what the service said to it, as somebody would read it afterwards. */
export interface Journal {
  /** A heading. */
  part(title: string): void;
  /** Somebody does something. */
  does(who: string, what: string): void;
  /** What came of it. */
  says(...lines: readonly string[]): void;
  readonly text: () => string;
}

export function journal(title: string, preface: string): Journal {
  const lines = [`# ${title}`, '', preface];
  return {
    part: (heading) => lines.push('', `## ${heading}`, ''),
    does: (who, what) => lines.push(`- **${who}**: ${what}`),
    says: (...said) => lines.push(...said.map((line) => `  - ${line}`)),
    text: () => `${lines.join('\n')}\n`,
  };
}

/**
 * The steps of a journal without what differs with the day and the hour at which it is written: names
 * of days, dates, times and numbers are all one, and so is how many times in a row the service said
 * the same kind of thing. Which work goes wrong comes of the plan and of the hour: a task with its
 * part, and whoever has it (the only ones with both names), are all one too.
 */
export function skeletonOf(text: string): string[] {
  return text
    .split('\n')
    .filter((line) => /^(## |- \*\*)/.test(line))
    .map((line) =>
      line
        .replaceAll(
          /\b(Mon|Tues|Wednes|Thurs|Fri|Satur|Sun)day\b|\b(Mon|Tue|Wed|Thu|Fri|Sat|Sun)\b/g,
          '#',
        )
        .replaceAll(/"[^"]*"( \([^)]*\))?/g, '"…"')
        .replaceAll(/\*\*(?!The )\p{L}+ \p{L}+\*\*/gu, '**…**')
        .replaceAll(/[0-9][0-9.,:/-]*/g, '#'),
    );
}
