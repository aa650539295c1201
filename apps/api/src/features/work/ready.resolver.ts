import { Args, ArgsType, Field, Int, Query, registerEnumType, Resolver } from '@nestjs/graphql';
import { By, YardArg } from '../../platform/access/caller.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { ShapePipe } from '../../platform/shapes/input.ts';
import { Ready, ReadyQuery } from './ready.contract.ts';
import { ReadyService } from './ready.service.ts';

const Whose = { MINE: 'mine', ALL: 'all' } as const;
registerEnumType(Whose, { name: 'Whose' });

@ArgsType()
class ReadyArguments {
  @Field(() => Whose, { nullable: true })
  readonly whose?: 'mine' | 'all';

  @Field(() => Int, { nullable: true, description: 'At most 1000; 200 unless told.' })
  readonly first?: number;

  @Field(() => String, { nullable: true, description: 'The nextCursor of the page before.' })
  readonly after?: string;
}

/** Those of the query's own fields that were given. */
function onlyOwn(args: unknown): unknown {
  if (typeof args !== 'object' || args === null) return args;
  const own = new Set(['whose', 'first', 'after']);
  return Object.fromEntries(
    Object.entries(args).filter(([name, value]) => own.has(name) && value !== null),
  );
}

@Resolver(() => Ready)
export class ReadyResolver {
  constructor(private readonly service: ReadyService) {}

  @Query(() => Ready)
  ready(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @Args({ type: () => ReadyArguments }, new ShapePipe(ReadyQuery.schema, onlyOwn))
    query: ReadyQuery,
  ): Promise<Ready> {
    return this.service.ready(viewer, query);
  }
}
