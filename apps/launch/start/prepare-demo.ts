import { z } from 'zod';
import {
  contentsOf,
  type DemoSignIn,
  demoPassword,
  demoYard,
  joinAccounts,
  makeAccounts,
} from './demo.ts';
import { knownPlan, planAndPublish, readPlan } from './first-plan.ts';
import { type Service, signIn } from './service.ts';
import type { Settings } from './settings.ts';
import { emptyWords, firstPlanWords, planWords, signInWords } from './words.ts';

type Say = (...lines: readonly string[]) => void;
export type ShowDemo = (url: string, signal: AbortSignal, say: Say) => Promise<void>;

/**
 * Makes the accounts of the demo where the database has no yard and is to get one, and says what to do
 * once the service answers: import the demo yard, plan it if nothing is planned, print all of it.
 */
export async function prepareDemo(settings: Settings, serviceUrl: string): Promise<ShowDemo> {
  const known = await contentsOf(serviceUrl);
  const choice = known.hasYards ? 'none' : settings.yard;
  refusePublic(settings, choice !== 'none' || known.demo.length > 0);
  const yard = choice === 'none' ? null : await demoYard(choice, new Date());
  if (yard !== null) await makeAccounts(serviceUrl, yard);

  return async (url, signal, say) => {
    if (yard !== null) {
      const founder = yard.people.find(({ roles }) => roles.includes('foreman'));
      if (!founder?.email) throw new Error(`Nobody is foreman of ${yard.name}`);
      const service = await signIn(url, signal, founder.email, demoPassword);
      await service.post('/yards', yard, z.object({ id: z.literal(yard.id) }));
      await joinAccounts(serviceUrl, yard, founder.id);
      say('', `New in the empty database: ${yard.name}. Its people and boats are invented.`);
    }
    if (yard === null && !known.hasYards) say('', ...emptyWords);
    const { demo } = yard === null ? known : await contentsOf(serviceUrl);
    say('', ...signInWords(demo));
    const foreman = demo.find(({ roles }) => roles.includes('foreman'));
    if (foreman) await showPlan(settings, foreman, url, signal, say);
  };
}

async function showPlan(
  settings: Settings,
  { email, yardId }: DemoSignIn,
  url: string,
  signal: AbortSignal,
  say: Say,
): Promise<void> {
  let service: Service;
  try {
    service = await signIn(url, signal, email, demoPassword);
  } catch (error) {
    signal.throwIfAborted();
    say('', `${email} has another password by now (${String(error)}), so no plan is shown.`);
    return;
  }
  const planId =
    (await knownPlan(service, yardId)) ?? (await makePlan(service, settings, yardId, signal, say));
  if (planId === null) return;
  say('', ...planWords(await readPlan(service, yardId, planId)));
}

/** A busy or small machine may need longer to a first plan than the usual few seconds. */
const timesLonger = [1, 4, 15];

async function makePlan(
  service: Service,
  { planSeconds }: Settings,
  yardId: string,
  signal: AbortSignal,
  say: Say,
): Promise<string | null> {
  for (const times of timesLonger) {
    const seconds = planSeconds * times;
    say('', `Planning the coming weeks for ${String(seconds)} s ...`);
    const made = await planAndPublish(service, yardId, seconds, signal);
    if (made.planId === null) {
      say(`There is no plan yet: ${made.why}`);
      if (!made.longer) return null;
      continue;
    }
    say(firstPlanWords(made.firstPlan));
    return made.planId;
  }
  return null;
}

function refusePublic({ publicAt, allowPublicDemo }: Settings, hasDemo: boolean): void {
  if (publicAt === null || allowPublicDemo || !hasDemo) return;
  throw new Error(
    `${publicAt} can be reached from outside, and the demo's password is known to everyone. ` +
      'Use HOST=127.0.0.1 and no public PUBLIC_URL, --yard none with a database that has no demo, or ' +
      'set ALLOW_PUBLIC_DEMO=1 if that is what you want.',
  );
}
