/**
 * The one place that knows languages. Each file beside it holds what one room of the screens says,
 * English first; a translation is a second object of the same shape, and the compiler names what
 * it lacks. Rooms have files of their own so that a page loads only what it says.
 */
export type Language = 'en';

/** What the browser prefers of what there is. */
const language: Language = 'en';

/** For `Intl`: English with days before months and a clock of 24 hours, unless the browser's is English too. */
export const locale: string = navigator.languages.find(isEnglish) ?? 'en-GB';

/** Some systems name what no standard knows, `en-US@posix`. */
function isEnglish(tag: string): boolean {
  return /^en(-[a-z\d]+)*$/i.test(tag);
}

/** `Texts<typeof en>` is what a translation of `en` has to be. */
export type Texts<English> = {
  readonly [Key in keyof English]: English[Key] extends string
    ? string
    : English[Key] extends (...given: infer Given) => string
      ? (...given: Given) => string
      : Texts<English[Key]>;
};

/** A room's texts in the language of this page. */
export function inLanguage<English>(all: Readonly<Record<Language, English>>): English {
  return all[language];
}

const rules = new Intl.PluralRules(language);
const numbers = new Intl.NumberFormat(locale);

/** The form for so many, `#` standing for the number: `counted(2, { one: '# task', other: '# tasks' })`. */
export function counted(
  count: number,
  forms: { readonly other: string } & Readonly<Partial<Record<Intl.LDMLPluralRule, string>>>,
): string {
  return (forms[rules.select(count)] ?? forms.other).replace('#', numbers.format(count));
}

const lists = new Intl.ListFormat(language, { type: 'conjunction' });

/** `a, b and c`. */
export const listed = (items: readonly string[]): string => lists.format(items);
