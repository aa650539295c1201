import { cureTableSchema, milestoneSchema } from '#planning/yard/materials.ts';
import {
  abilitySchema,
  breakSchema,
  roleSchema,
  shiftExceptionSchema,
  shiftSchema,
  weeklyShiftSchema,
} from '#planning/yard/people.ts';
import {
  airSchema,
  choiceSchema,
  effortSchema,
  linkSchema,
  momentSchema,
  stepSchema,
} from '#planning/yard/procedures.ts';
import { climateSchema, setPointSchema } from '#planning/yard/spaces.ts';
import { named } from './platform/shapes/names.ts';

/**
 * The names that nested shapes of the yard have in GraphQL and OpenAPI. Contracts that nest import
 * this first: a shape without a name by then would be named after the place where it is met.
 */
named('Role', roleSchema);
named('Ability', abilitySchema);
named('Break', breakSchema);
named('Shift', shiftSchema);
named('WeeklyShift', weeklyShiftSchema);
named('ShiftException', shiftExceptionSchema);
named('SetPoint', setPointSchema);
named('Climate', climateSchema);
named('Milestone', milestoneSchema);
named('CureTable', cureTableSchema);
named('CureRow', cureTableSchema.shape.rows.element);
named('Air', airSchema);
named('Effort', effortSchema);
named('Step', stepSchema);
named('ToolNeed', stepSchema.shape.tools.unwrap().element);
named('Moment', momentSchema);
named('Link', linkSchema);
named('Choice', choiceSchema);
named('Branch', choiceSchema.shape.branches.element);
