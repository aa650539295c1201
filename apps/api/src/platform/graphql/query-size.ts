import {
  type DefinitionNode,
  type DocumentNode,
  type FragmentDefinitionNode,
  Kind,
  type SelectionSetNode,
  visit,
} from 'graphql';
import { DomainError } from '#kernel/error.ts';
import { assertStorable } from '../http/storable.ts';

/** The words and brackets of a query; the standard introspection has 300. */
export const mostTokens = 3_000;
/** The deepest answer of ours (boat, refit, part, job) needs six; a cycle of types would not end. */
const deepest = 12;
/** The standard introspection follows seven types that wrap each other. */
const deepestIntrospection = 20;
/** Each is a call of its own. */
const mostRoots = 20;
const mostAliases = 50;
const mostFields = 1_000;

interface Size {
  /** Saturates: fragments that double each other grow without bound. */
  readonly fields: number;
  readonly aliases: number;
  readonly depth: number;
  readonly roots: number;
  /** Depth within `__schema` and `__type`. */
  readonly schemaDepth: number;
}

const nothing: Size = { fields: 0, aliases: 0, depth: 0, roots: 0, schemaDepth: 0 };

/**
 * How large the operations of a document are with their fragments written out. Looked at before
 * the document is compared with the schema, for that comparison itself takes the square of its size.
 */
export function assertQuerySize(document: DocumentNode, introspection: boolean): void {
  const fragments = new Map(document.definitions.filter(isFragment).map((f) => [f.name.value, f]));
  const known = new Map<string, Size>();
  const visiting = new Set<string>();

  const ofFragment = (name: string): Size => {
    const found = known.get(name);
    const fragment = fragments.get(name);
    // A circle, or a fragment that is missing, is refused by the comparison with the schema.
    if (found || !fragment || visiting.has(name)) return found ?? nothing;
    visiting.add(name);
    const size = ofSelections(fragment.selectionSet);
    visiting.delete(name);
    known.set(name, size);
    return size;
  };

  const ofSelections = (set: SelectionSetNode | undefined): Size =>
    (set?.selections ?? []).map(ofSelection).reduce(beside, nothing);

  const ofSelection = (node: SelectionSetNode['selections'][number]): Size => {
    if (node.kind === Kind.FRAGMENT_SPREAD) return ofFragment(node.name.value);
    const inside = ofSelections(node.selectionSet);
    if (node.kind === Kind.INLINE_FRAGMENT) return inside;
    const isSchema = node.name.value === '__schema' || node.name.value === '__type';
    if (isSchema && !introspection) throw untold();
    return {
      fields: inside.fields + 1,
      aliases: inside.aliases + (node.alias ? 1 : 0),
      depth: isSchema ? 1 : inside.depth + 1,
      roots: 1,
      schemaDepth: isSchema ? inside.depth + 1 : inside.schemaDepth,
    };
  };

  for (const definition of document.definitions) {
    if (definition.kind === Kind.OPERATION_DEFINITION)
      assertSize(ofSelections(definition.selectionSet));
  }
  assertTexts(document);
}

function beside(one: Size, other: Size): Size {
  return {
    fields: Math.min(one.fields + other.fields, Number.MAX_SAFE_INTEGER),
    aliases: Math.min(one.aliases + other.aliases, Number.MAX_SAFE_INTEGER),
    depth: Math.max(one.depth, other.depth),
    roots: Math.min(one.roots + other.roots, Number.MAX_SAFE_INTEGER),
    schemaDepth: Math.max(one.schemaDepth, other.schemaDepth),
  };
}

function assertSize({ fields, aliases, depth, roots, schemaDepth }: Size): void {
  const counts: readonly [number, number, string][] = [
    [depth, deepest, 'levels'],
    [schemaDepth, deepestIntrospection, 'levels of the schema'],
    [roots, mostRoots, 'fields at the top'],
    [aliases, mostAliases, 'aliases'],
    [fields, mostFields, 'fields'],
  ];
  for (const [count, most, what] of counts) {
    if (count <= most) continue;
    const words = `The query has ${String(count)} ${what}; at most ${String(most)} are answered.`;
    throw new DomainError('input.limit', words);
  }
}

const untold = (): DomainError =>
  new DomainError('input.limit', 'The service does not tell its schema here.', {
    cure: 'Read apps/api/schema.graphql; whoever runs the service may set GRAPHQL_INTROSPECTION=1.',
  });

function isFragment(definition: DefinitionNode): definition is FragmentDefinitionNode {
  return definition.kind === Kind.FRAGMENT_DEFINITION;
}

/** What a literal writes as `\u0000` no check of the JSON has seen. */
function assertTexts(document: DocumentNode): void {
  visit(document, {
    StringValue: ({ value }) => {
      assertStorable(value, 'query');
    },
  });
}
