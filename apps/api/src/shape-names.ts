import {
  materialLineSchema,
  mixFabricSchema,
  mixSheetSchema,
  sheetAmountSchema,
  sheetBondSchema,
  sheetCautionSchema,
  sheetCupSchema,
  sheetMaterialSchema,
  sheetShoppingSchema,
} from '#persistence/plan/mix-shape.ts';
import { tackFindingSchema } from '#live/reports/tack-test.ts';
import { trustSchema } from '#planning/questions/trust.ts';
import { crewMemberSchema, filmMarkSchema } from '#persistence/plan/sheet-shape.ts';
import { whenSchema } from '#persistence/plan/when-shape.ts';
import { jobSchema, layerSchema } from '#planning/yard/boats.ts';
import {
  conversionSchema,
  cureTableSchema,
  fabricSchema,
  figureSchema,
  hardenerSchema,
  materialSchema,
  milestoneSchema,
} from '#planning/yard/materials.ts';
import { observationSchema, readingSchema } from '#planning/yard/observed.ts';
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
  consumableSchema,
  consumptionSchema,
  effortSchema,
  holdEndSchema,
  holdSchema,
  linkSchema,
  momentSchema,
  moveSchema,
  preparationSchema,
  quantitySchema,
  stepSchema,
} from '#planning/yard/procedures.ts';
import {
  absenceSchema,
  barrierSchema,
  climateChangeSchema,
  climateSchema,
  hoursSchema,
  humiditySchema,
  setPointSchema,
  skinSchema,
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
named('SpaceHumidity', humiditySchema);
named('Skin', skinSchema);
named('ClimateChange', climateChangeSchema);
named('Milestone', milestoneSchema);
named('CureTable', cureTableSchema);
named('CureRow', cureTableSchema.shape.rows.element);
named('RateModel', conversionSchema);
named('RateConstant', conversionSchema.shape.k1);
named('SheetTrust', figureSchema.shape.trust.unwrap());
named('SheetFigure', figureSchema);
named('Hardener', hardenerSchema);
named('PercentRange', hardenerSchema.options[0].shape.warn.unwrap().unwrap());
named('ResinBase', materialSchema.shape.resinSystem);
named('MaterialUse', materialSchema.shape.use.unwrap().unwrap());
named('Binder', fabricSchema.shape.binder.unwrap());
named('Finding', observationSchema.shape.found);
named('ReadingOf', readingSchema.shape.of.unwrap());
named('TackFinding', tackFindingSchema);
named('Layer', layerSchema);
named('Substrate', layerSchema.shape.base);
named('SurfaceKind', layerSchema.shape.surface.unwrap());
named('FilmSurface', materialSchema.shape.surface.unwrap().unwrap());
named('BelowMinimum', materialSchema.shape.belowMinimum.unwrap().unwrap());
named('DampAir', materialSchema.shape.dampAir.unwrap().unwrap());
named('Air', airSchema);
named('Effort', effortSchema);
named('Bonding', stepSchema.shape.bonding.unwrap());
named('Step', stepSchema);
named('ToolNeed', stepSchema.shape.tools.unwrap().element);
named('Moment', momentSchema);
named('Move', moveSchema);
named('Hold', holdSchema);
named('HoldEnd', holdEndSchema);
named('Consumption', consumptionSchema);
named('Quantity', quantitySchema);
named('Preparation', preparationSchema);
named('PreparationKind', preparationSchema.shape.kind);
named('Consumable', consumableSchema);
named('BarrierAct', stepSchema.shape.barrier.unwrap().unwrap());
named('Link', linkSchema);
named('Choice', choiceSchema);
named('Branch', choiceSchema.shape.branches.element);

/** Of plans, and of what is worked out beside them. */
named('When', whenSchema);
named('CrewMember', crewMemberSchema);
named('FilmMark', filmMarkSchema);
named('Trust', trustSchema);
named('Caution', sheetCautionSchema);
named('PlanAmount', sheetAmountSchema);
named('PlanBond', sheetBondSchema);
named('BondMade', sheetBondSchema.shape.bond);
named('MixCup', sheetCupSchema);
named('MixFabric', mixFabricSchema);
named('MixSheet', mixSheetSchema);
named('PlanShopping', sheetShoppingSchema);
named('MaterialLine', materialLineSchema);
named('PlanMaterial', sheetMaterialSchema);
