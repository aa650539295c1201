import type { Bench } from './bench.ts';
import { cure } from './cure.ts';
import { live } from './live.ts';
import { minuteClock } from './minute-clock.ts';
import { oracle } from './oracle.ts';
import { peers } from './peers.ts';
import { j30 } from './published/j30.ts';
import { j120, j60 } from './published/large.ts';
import { max } from './published/max.ts';
import { calendars, multiMode, multiSkill } from './published/multi.ts';
import { refitFirst } from './refit-first.ts';
import { refitGap } from './refit-gap.ts';
import { refit } from './refit.ts';
import { rowSecurity } from './row-security.ts';
import { signIn } from './sign-in.ts';
import { throughput } from './throughput.ts';
import { web } from './web.ts';

/** In the order in which `npm run bench` takes them: those that are soon over first. */
export const benches: readonly Bench[] = [
  multiMode,
  calendars,
  cure,
  signIn,
  rowSecurity,
  live,
  web,
  throughput,
  multiSkill,
  minuteClock,
  j30,
  refitFirst,
  refitGap,
  j60,
  max,
  j120,
  oracle,
  refit,
  peers,
];
