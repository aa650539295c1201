import type { YardInput } from '#planning/yard/yard.ts';

type SlotListInput = NonNullable<YardInput['slotLists']>[number];
type SlotInput = NonNullable<SlotListInput['slots']>[number];

const slot = (date: string, from: string, to: string, rest: Partial<SlotInput>): SlotInput => ({
  from: `${date}T${from}:00+01:00`,
  to: `${date}T${to}:00+01:00`,
  ...rest,
});

/** Mornings on which the mobile crane can come; one of them is booked. Prices are invented. */
export const crane: SlotListInput = {
  id: 'crane',
  name: 'Mobile crane',
  kind: 'crane',
  slots: [
    slot('2026-12-15', '08:00', '12:00', { price: 48_000, noticeHours: 72 }),
    slot('2026-12-18', '08:00', '12:00', { price: 45_000, booked: true }),
    slot('2026-12-22', '08:00', '12:00', { price: 48_000, noticeHours: 72 }),
    slot('2026-12-30', '08:00', '12:00', { price: 60_000, noticeHours: 120 }),
  ],
};

const visits = ['2026-12-09', '2026-12-10', '2026-12-11', '2026-12-14', '2026-12-15', '2026-12-16'];

/** The surveyor's rounds. Prices are invented. */
export const surveyor: SlotListInput = {
  id: 'surveyor',
  name: 'Surveyor',
  kind: 'surveyor',
  slots: [...visits, '2026-12-17', '2026-12-21', '2026-12-28'].map((date) =>
    slot(date, '09:00', '11:00', { price: 12_000, noticeHours: 24 }),
  ),
};
