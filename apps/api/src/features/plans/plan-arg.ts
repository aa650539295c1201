import { Args, ID } from '@nestjs/graphql';

/** The id of a plan; left out, the published plan is meant. */
export const PlanArg = (): ParameterDecorator => Args('id', { type: () => ID, nullable: true });
