import { Args, ArgsType, Field, Int } from '@nestjs/graphql';
import { QueryOf, ShapePipe } from '../shapes/input.ts';
import { inputShape } from '../shapes/shape.ts';
import { pageQuerySchema } from './page.ts';

const PageQuery = inputShape('PageQuery', pageQuerySchema);

@ArgsType()
class PageArguments {
  @Field(() => Int, { nullable: true, description: 'How many, at most 200; 50 unless told.' })
  readonly first?: number;

  @Field(() => String, { nullable: true, description: 'The nextCursor of the page before.' })
  readonly after?: string;
}

/** `?first=&after=` of a REST list. */
export const PageOf = (): ParameterDecorator => QueryOf(PageQuery);

/** The arguments `first` and `after` of a GraphQL list, out of all that it has. */
export const PageArg = (): ParameterDecorator =>
  Args({ type: () => PageArguments }, new ShapePipe(pageQuerySchema, onlyPage));

function onlyPage(args: unknown): unknown {
  if (typeof args !== 'object' || args === null) return args;
  const { first, after }: { first?: unknown; after?: unknown } = args;
  return {
    ...(first === undefined || first === null ? {} : { first }),
    ...(after === undefined || after === null ? {} : { after }),
  };
}
