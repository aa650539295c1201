import { readBenchmark } from '../apps/cli/solve/solveFile.ts';
import { minizincModel } from './bench/peer/model.ts';
import { writeFileSync } from 'node:fs';
writeFileSync('/tmp/m.mzn', minizincModel(readBenchmark(process.argv[2])));
