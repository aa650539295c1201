import { inLanguage, listed } from './language.ts';

/** The week on paper. */
const en = {
  title: 'Week on paper',
  hint: 'One page for each builder, in black and white. The paper’s size is chosen in the print window.',
  print: 'Print',
  week: (from: string, until: string) => `${from} to ${until}`,
  before: 'Week before',
  after: 'Week after',
  whom: 'For whom',
  everybody: 'Everybody',
  nobody: 'Nobody has work in this week by this plan.',
  notPublished: 'Not published: a draft. Do not work to it.',
  madeAt: (moment: string) => `Plan of ${moment}`,
  table: (name: string, day: string) => `${name}, ${day}`,
  time: 'Time',
  task: 'Task',
  where: 'Where',
  watch: 'Mixing, windows, hands',
  done: 'Done',
  notes: 'Notes',
  span: (from: string, to: string) => `${from}–${to}`,
  continued: 'goes on',
  continues: 'goes on later',
  withOthers: (names: readonly string[]) => `with ${listed(names)}`,
  mix: (cup: number, at: string, by: string) => `Cup ${String(cup)}: mix ${at}, spread by ${by}.`,
  cups: (count: number, at: string, by: string) =>
    `${String(count)} cups, first mixed ${at}, all spread by ${by}.`,
  cleanBy: (moment: string) => `Tools clean by ${moment}.`,
  opens: (task: string, moment: string) => `${task} not before ${moment}.`,
  closes: (task: string, moment: string) => `${task} over by ${moment}.`,
  both: (task: string, opens: string, closes: string) => `${task} between ${opens} and ${closes}.`,
  cautions: 'Cautions',
  of: (material: string) => `${material}:`,
  slotAt: (list: string, span: string) => `${list}, ${span}.`,
} as const;

export const sheet = inLanguage({ en });
