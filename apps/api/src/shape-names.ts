import { jobSchema } from '#planning/yard/boats.ts';
import { cureTableSchema, milestoneSchema } from '#planning/yard/materials.ts';
import { slotListSchema, slotSchema } from '#planning/yard/outside.ts';
import {
  abilitySchema,
  breakSchema,
  overtimeSchema,
  roleSchema,
  shiftExceptionSchema,
  shiftSchema,
  weeklyShiftSchema,
} from '#planning/yard/people.ts';
import {
  airSchema,
  choiceSchema,
  consumptionSchema,
  effortSchema,
  holdEndSchema,
  holdSchema,
  linkSchema,
  momentSchema,
  moveSchema,
  stepSchema,
} from '#planning/yard/procedures.ts';
import {
  absenceSchema,
  barrierSchema,
  climateSchema,
  hoursSchema,
  setPointSchema,
} from '#planning/yard/spaces.ts';
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
named('Overtime', overtimeSchema);
named('Absence', absenceSchema);
named('Hours', hoursSchema);
named('DustWay', barrierSchema.shape.blocks.element);
named('Slot', slotSchema);
named('SlotKind', slotListSchema.shape.kind);
named('WaitsFor', jobSchema.shape.waitsFor.unwrap().element);
named('Word', jobSchema.shape.words.unwrap().element);
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
named('Move', moveSchema);
named('Hold', holdSchema);
named('HoldEnd', holdEndSchema);
named('Consumption', consumptionSchema);
named('BarrierAct', stepSchema.shape.barrier.unwrap().unwrap());
named('Link', linkSchema);
named('Choice', choiceSchema);
named('Branch', choiceSchema.shape.branches.element);
