import { Injectable } from '@nestjs/common';
import type { BondAnswer as Answer, Surface } from '#cure/bond/bond.ts';
import { bondOf } from '#cure/bond/bond-of.ts';
import type { BondRule } from '#cure/bond/rule.ts';
import { BOND_RULES } from '#cure/bond/rules.ts';
import { CATALOGUE_VERSION } from '#cure/catalogue/classes.ts';
import { loadWorkload } from '#persistence/workload/store.ts';
import { loadYard } from '#persistence/yard/store.ts';
import { askedMaterial } from '#planning/questions/around.ts';
import { partSurface } from '#planning/questions/part-surface.ts';
import { cureMaterial } from '#planning/yard/cure-material.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { Database } from '../../platform/database/database.ts';
import type {
  BondAnswer,
  BondCheckInput,
  BondRuleList,
  PartSurface,
  PartSurfaceQuery,
} from './bonds.contract.ts';

/** How one material bonds to another, by rules that are data, and what parts expose. */
@Injectable()
export class BondsService {
  constructor(private readonly database: Database) {}

  rules(): BondRuleList {
    return { catalogue: CATALOGUE_VERSION, items: BOND_RULES.map(showRule) };
  }

  check({ surface, next }: BondCheckInput): BondAnswer {
    return showAnswer(bondOf(surface, next));
  }

  surface(viewer: Viewer, part: string, query: PartSurfaceQuery): Promise<PartSurface> {
    const now = query.at ?? new Date(Math.floor(Date.now() / 60_000) * 60_000).toISOString();
    return this.database.inYard(viewer, async (tx) => {
      const yard = await loadYard(tx, viewer.yardId);
      const workload = await loadWorkload(tx, viewer.yardId);
      const next =
        query.material === undefined ? null : cureMaterial(askedMaterial(yard, query.material));
      const found = partSurface(yard, workload, { part, now, next: next?.base ?? null });
      const coat = next && {
        base: next.base,
        use: next.use,
        bonding: query.bonding ?? 'structural',
        binder: null,
      };
      return {
        partId: part,
        at: now,
        surface: found && showSurface(found),
        bond: found && coat && showAnswer(bondOf(found, coat)),
      };
    });
  }
}

const showSurface = (surface: Surface): NonNullable<PartSurface['surface']> => ({
  ...surface,
  done: surface.done.map((one) => ({ ...one })),
});

const showAnswer = (answer: Answer): BondAnswer => ({
  ...answer,
  preparation: answer.preparation.map((step) => ({ ...step })),
  warnings: [...answer.warnings],
});

function showRule(rule: BondRule): BondRuleList['items'][number] {
  const { id, when, bond, preparation, warnings, reason, trust, source } = rule;
  const list = <T>(values: readonly T[] | undefined): T[] | null => (values ? [...values] : null);
  return {
    id,
    when: {
      substrate: list(when.substrate),
      kind: list(when.kind),
      stage: list(when.stage),
      waxed: when.waxed ?? null,
      youngerThan: when.youngerThan ?? null,
      olderThan: when.olderThan ?? null,
      old: when.old ?? null,
      next: list(when.next),
      use: list(when.use),
      bonding: when.bonding ?? null,
      binder: list(when.binder)?.map((binder) => binder ?? 'unknown') ?? null,
    },
    bond,
    preparation: preparation.map(({ kind, grit }) => ({ kind, grit: grit ?? null })),
    warnings: [...warnings],
    reason,
    trust,
    source,
  };
}
