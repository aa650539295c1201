import type { z } from 'zod';
import { skillSchema } from '#planning/yard/people.ts';
import { pageShape } from '../../platform/paging/page.ts';
import { patchOf } from '../../platform/shapes/layers.ts';
import { revision } from '../../platform/shapes/record.ts';
import { inputShape, outputShape } from '../../platform/shapes/shape.ts';

export const Skill = outputShape('Skill', skillSchema.extend({ revision }));
export const SkillPage = pageShape(Skill);
export const SkillInput = inputShape('SkillInput', skillSchema);
export const SkillPatch = inputShape('SkillPatch', patchOf(skillSchema.omit({ id: true })));

export type Skill = z.output<typeof Skill.schema>;
export type SkillInput = z.output<typeof SkillInput.schema>;
export type SkillPatch = z.output<typeof SkillPatch.schema>;
