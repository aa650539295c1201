import { z } from 'zod';
import type { PlanMap, Row } from '#planning/compile/trace/map.ts';
import type { Problem } from '#scheduling/model/problem.ts';

const versionSchema = z.object({ version: z.union([z.literal(1), z.literal(2)]) });

/** Every source that a problem names, as its row: `kind:id`, of which no more was kept then. */
function rowsOf(problem: Problem): Record<string, Row> {
  const rows: Record<string, Row> = {};
  const visit = (value: unknown): void => {
    if (typeof value !== 'object' || value === null) return;
    if (Array.isArray(value)) {
      // Lag tables are most of a problem, and numbers name nothing.
      if (typeof value[0] !== 'number') value.forEach(visit);
      return;
    }
    for (const [key, field] of Object.entries(value)) {
      if (key !== 'source' || typeof field !== 'string') visit(field);
      else {
        const [kind, ...id] = field.split(':');
        rows[field] = { kind, id: id.join(':'), name: id.join(':'), path: '' };
      }
    }
  };
  visit(problem);
  return rows;
}

/**
 * The map that was stored with a plan, in the version of now. Version 1 knew no parts, stocks,
 * barriers or slots, for there were none, and no names of what constraints came from.
 */
export function readMap(stored: unknown, problem: Problem): PlanMap {
  if (versionSchema.parse(stored).version === 2) return stored as PlanMap;
  return {
    ...(stored as Omit<PlanMap, 'version'>),
    version: 2,
    currency: 'EUR',
    parts: [],
    stocks: [],
    barriers: [],
    slotLists: [],
    rows: rowsOf(problem),
  };
}
