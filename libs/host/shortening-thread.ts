import { parentPort, workerData } from 'node:worker_threads';
import { whatShortens } from '#planning/decode/explain/what-shortens.ts';
import { create } from '#scheduling/solve.ts';
import type { ShorteningOrder } from './run-shortening.ts';

const { problem, plan, map, refit, seed, iterations } = workerData as ShorteningOrder;
parentPort?.postMessage(
  whatShortens({
    problem,
    plan,
    map,
    refit,
    replan: (of, from) => create(of, seed, from).step(iterations).plan,
  }),
);
