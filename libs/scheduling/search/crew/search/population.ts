import type { Random } from '#kernel/random.ts';
import type { Compiled } from '../compiled/compiled.ts';
import { copyGenome, emptyGenome, type Genome } from '../decode/genome.ts';

interface Member {
  readonly genome: Genome;
  energy: number;
}

/** Genomes to breed from; the less energy, the better. */
export interface Population {
  readonly count: number;
  /** Takes in a copy, once all places are taken instead of the worst of a few; not where none is worse. */
  insert(genome: Genome, energy: number): void;
  /** The better of two. Only where there is any. */
  parent(): Genome;
  clear(): void;
}

/** Members at most. */
export const POPULATION = 48;
/** Members looked at for one that is to go. */
const LOOKS = 6;

export function populationOf(compiled: Compiled, random: Random): Population {
  const members: Member[] = [];
  const any = (): Member => members[random.below(members.length)];
  return {
    get count() {
      return members.length;
    },
    insert(genome, energy) {
      if (members.length < POPULATION) {
        const member = { genome: emptyGenome(compiled), energy };
        copyGenome(genome, member.genome);
        members.push(member);
        return;
      }
      // Two plans of one energy are taken to be the same plan.
      if (members.some((member) => Math.abs(member.energy - energy) < 1e-6)) return;
      let worst = any();
      for (let k = 1; k < LOOKS; k += 1) {
        const other = any();
        if (other.energy > worst.energy) worst = other;
      }
      if (energy >= worst.energy) return;
      copyGenome(genome, worst.genome);
      worst.energy = energy;
    },
    parent() {
      const a = any();
      const b = any();
      return (a.energy <= b.energy ? a : b).genome;
    },
    clear() {
      members.length = 0;
    },
  };
}
