import { afterAll, beforeAll } from 'vitest';
import { type Api, startApi } from '../../apps/api/src/main.ts';
import { authentication } from './owasp/authentication.ts';
import { callsOf } from './owasp/calls.ts';
import { configuration } from './owasp/configuration.ts';
import { consumption } from './owasp/consumption.ts';
import { fetching } from './owasp/fetching.ts';
import { flows } from './owasp/flows.ts';
import { functions } from './owasp/functions.ts';
import type { Ground } from './owasp/ground.ts';
import { inventory } from './owasp/inventory.ts';
import { objects } from './owasp/objects.ts';
import { properties } from './owasp/properties.ts';
import { resources } from './owasp/resources.ts';
import { twoYards } from './world/two-yards.ts';

/** OWASP API Security Top 10, 2023 edition: a group for each item, in its order. */
const worldOf = twoYards();
let ground: Ground | undefined;
let strict: Api;
beforeAll(async () => {
  const world = worldOf();
  const { here, there, app, database } = world;
  strict = await startApi({
    databaseUrl: database.serviceUrl,
    port: 0,
    introspection: false,
    requestsPerMinute: 20,
    signInAttempts: 3,
    logLevels: [],
  });
  ground = {
    world,
    here,
    there,
    calls: callsOf(app),
    strictCalls: callsOf(strict.app),
    tokenOf: (who, side = here) => side.people[who].token,
    at: (below, side = here) => `yards/${side.yardId}/${below}`,
  };
});
afterAll(() => strict.close());

const groundOf = (): Ground => {
  if (!ground) throw new Error('there is no ground before the first test');
  return ground;
};

objects(groundOf);
authentication(groundOf);
properties(groundOf);
resources(groundOf);
functions(groundOf);
flows(groundOf);
fetching(groundOf);
configuration(groundOf);
inventory(groundOf);
consumption(groundOf);
