import {
  type DocumentNode,
  type FieldNode,
  type FragmentDefinitionNode,
  getNamedType,
  type GraphQLField,
  type GraphQLNamedType,
  type GraphQLOutputType,
  type GraphQLSchema,
  isInterfaceType,
  isListType,
  isNonNullType,
  isObjectType,
  Kind,
  type OperationDefinitionNode,
  type SelectionSetNode,
} from 'graphql';
import { DomainError } from '#kernel/error.ts';

/** What a page has unless the query says how many. */
const usualPage = 50;
/** What a list that is no page is reckoned with: the refits of a boat, the jobs of a part. */
const usualList = 5;
/** As much as a hundred pages of fifty records with ten fields each. */
const highest = 50_000;

type Variables = Readonly<Record<string, unknown>>;

/** What an operation may give: a node for each field, lists as often as they may have entries. */
export interface Cost {
  readonly nodes: number;
  /** Fields of the root: each is a call. */
  readonly calls: number;
}

/**
 * The dearest of a document's operations, which fits the schema. A page counts as many entries as
 * it was asked for (`first`), any other list a usual number. Throws `input.limit`.
 */
export function costOf(schema: GraphQLSchema, document: DocumentNode, variables: Variables): Cost {
  const walk = new Walk(schema, document, variables);
  const costs = document.definitions
    .filter((node): node is OperationDefinitionNode => node.kind === Kind.OPERATION_DEFINITION)
    .map((operation) => walk.operation(operation));
  const nodes = Math.max(...costs.map((cost) => cost.nodes));
  if (nodes > highest) {
    throw new DomainError(
      'input.limit',
      `The query may give ${String(nodes)} values; at most ${String(highest)} are answered at once.`,
      { cure: 'Ask for fewer fields, or for a smaller page (`first`).' },
    );
  }
  return { nodes, calls: Math.max(...costs.map((cost) => cost.calls)) };
}

class Walk {
  readonly #fragments: ReadonlyMap<string, FragmentDefinitionNode>;
  /** Nodes of a fragment, by its name and the size of the page it is in. */
  readonly #known = new Map<string, number>();

  constructor(
    private readonly schema: GraphQLSchema,
    document: DocumentNode,
    private readonly variables: Variables,
  ) {
    this.#fragments = new Map(
      document.definitions
        .filter((node): node is FragmentDefinitionNode => node.kind === Kind.FRAGMENT_DEFINITION)
        .map((fragment) => [fragment.name.value, fragment]),
    );
  }

  operation({ operation, selectionSet }: OperationDefinitionNode): Cost {
    const root = this.schema.getRootType(operation);
    return {
      nodes: this.#nodes(selectionSet, root ?? undefined, null),
      calls: this.#roots(selectionSet),
    };
  }

  #roots({ selections }: SelectionSetNode): number {
    return total(selections, (node) => {
      if (node.kind === Kind.FIELD) return 1;
      if (node.kind === Kind.INLINE_FRAGMENT) return this.#roots(node.selectionSet);
      const fragment = this.#fragments.get(node.name.value);
      return fragment ? this.#roots(fragment.selectionSet) : 0;
    });
  }

  /** `page`: how many entries the lists right below may have; null: the usual number. */
  #nodes(
    set: SelectionSetNode | undefined,
    type: GraphQLNamedType | undefined,
    page: number | null,
  ): number {
    return total(set?.selections ?? [], (node) => {
      if (node.kind === Kind.FIELD) return this.#field(node, type, page);
      if (node.kind === Kind.INLINE_FRAGMENT) {
        const on = node.typeCondition && this.schema.getType(node.typeCondition.name.value);
        return this.#nodes(node.selectionSet, on ?? type, page);
      }
      return this.#fragment(node.name.value, page);
    });
  }

  #fragment(name: string, page: number | null): number {
    const key = `${name} ${String(page)}`;
    const known = this.#known.get(key);
    const fragment = this.#fragments.get(name);
    if (known !== undefined || !fragment) return known ?? 0;
    const on = this.schema.getType(fragment.typeCondition.name.value);
    const nodes = this.#nodes(fragment.selectionSet, on, page);
    this.#known.set(key, nodes);
    return nodes;
  }

  #field(node: FieldNode, type: GraphQLNamedType | undefined, page: number | null): number {
    const field =
      isObjectType(type) || isInterfaceType(type) ? type.getFields()[node.name.value] : undefined;
    // __typename; and the schema itself, whose size is what it is.
    if (!field) return 1;
    const times = isList(field.type) ? (page ?? usualList) : 1;
    const inside = this.#nodes(
      node.selectionSet,
      getNamedType(field.type),
      this.#page(node, field),
    );
    return Math.min(1 + times * inside, Number.MAX_SAFE_INTEGER);
  }

  #page(node: FieldNode, field: GraphQLField<unknown, unknown>): number | null {
    if (!field.args.some(({ name }) => name === 'first')) return null;
    const sent = node.arguments?.find(({ name }) => name.value === 'first')?.value;
    const first: unknown =
      sent?.kind === Kind.VARIABLE
        ? this.variables[sent.name.value]
        : sent?.kind === Kind.INT
          ? Number(sent.value)
          : undefined;
    // One that is out of range is refused as a field, with its own words.
    return typeof first === 'number' && first > 0 ? first : usualPage;
  }
}

function total<T>(items: readonly T[], count: (item: T) => number): number {
  return Math.min(
    items.reduce((sum, item) => sum + count(item), 0),
    Number.MAX_SAFE_INTEGER,
  );
}

function isList(type: GraphQLOutputType): boolean {
  return isListType(isNonNullType(type) ? type.ofType : type);
}
