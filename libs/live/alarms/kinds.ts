import { z } from 'zod';

/**
 * `opens`: a window opens in a quarter of an hour. `closes`: a window shuts soon, with what it takes
 * after that. `missed`: it has shut, and a preparation was added. `too-cold`: a film does not cure.
 * `pot-life`: a cup that was mixed is at its end. `lapses`: a claim that was not started is about to
 * be free again. `overrun`: running work goes on past when it was expected to end. `unbegun`: work was
 * to begin by the published plan, and nobody has begun it.
 */
export const alarmKindSchema = z.enum([
  'opens',
  'closes',
  'missed',
  'too-cold',
  'pot-life',
  'lapses',
  'overrun',
  'unbegun',
]);
