import { readFileSync, readdirSync } from 'node:fs';
import { readSm } from '/work/main/libs/scheduling/formats/sm.ts';
import { readSch } from '/work/main/libs/scheduling/formats/sch.ts';
import { createExact } from '/work/main/libs/scheduling/search/exact/exact.ts';
import { check } from '/work/main/libs/scheduling/checker/check.ts';
const D = '/work/shared/bench-data/';
const [set, secs, filter] = process.argv.slice(2);
const rows = readFileSync(D + set + '/best-known.csv', 'utf8').trim().split('\n').slice(1).map(l => l.split(','));
const times: number[] = []; let opt = 0, inf = 0, feas = 0, unk = 0, wrong = 0; let iters = 0, total = 0, gap=0;
for (const [name, lb, ub, st] of rows) {
  if (filter && !new RegExp(filter).test(name)) continue;
  const text = readFileSync(D + set + '/' + name, 'utf8');
  const t0 = performance.now();
  const p = name.endsWith('.sm') ? readSm(text, name) : readSch(text, name);
  const s = createExact(p, 1, null);
  let state = s.step(1);
  while (!state.done && performance.now() - t0 < 1000 * +secs) state = s.step(20);
  const t = performance.now() - t0;
  times.push(t); total += t; iters += state.iterations;
  const ms = state.plan?.finishes[0];
  let bad = '';
  if (state.plan) { const v = check(p, state.plan); if (v.length) bad = 'CHECK ' + v[0].message; if (ms! < +lb) bad += ' BELOW'; }
  if (state.status === 'optimal') { opt++; if (ms! > +ub || (st === 'optimal' && ms !== +ub)) bad += ' WRONGOPT'; if (st==='infeasible') bad+=' WASINF'; }
  else if (state.status === 'infeasible') { inf++; if (st !== 'infeasible') bad += ' WRONGINF'; }
  else if (state.status === 'feasible') { feas++; gap += ms!/+ub-1; if (st==='infeasible') bad+=' WASINF'; } else unk++;
  if (state.bounds[1] > +ub && st !== 'infeasible') bad += ' BOUND';
  if (bad) wrong++;
  if (bad || process.env.V || !state.done) console.log(name, state.status, ms, state.bounds[1], st, lb, ub, state.iterations, t.toFixed(1), bad);
}
times.sort((a, b) => a - b);
const q = (x: number) => times[Math.min(times.length - 1, Math.floor(x * times.length))].toFixed(1);
console.log(set, { n: times.length, opt, inf, feas, unk, wrong, gap: (100*gap/Math.max(1,feas)).toFixed(2) }, 'median', q(.5), 'p95', q(.95), 'max', q(1), 'it/s', (iters / total * 1000).toFixed(0), 'total s', (total/1000).toFixed(1));
