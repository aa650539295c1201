import {
  astFromValue,
  type GraphQLArgument,
  type GraphQLInputType,
  type GraphQLOutputType,
  isEnumType,
  isInputObjectType,
  isLeafType,
  isListType,
  isNonNullType,
  isObjectType,
  isRequiredArgument,
  print,
} from 'graphql';
import { enumName } from '../../../apps/api/src/platform/shapes/names.ts';
import type { GraphqlOperation } from './operations.ts';

/** A value of REST as GraphQL takes it: its enumerations have names of their own. */
export function asGraphql(type: GraphQLInputType, value: unknown): unknown {
  if (isNonNullType(type)) return asGraphql(type.ofType, value);
  if (isListType(type)) {
    return Array.isArray(value) ? value.map((item) => asGraphql(type.ofType, item)) : value;
  }
  if (isEnumType(type)) return typeof value === 'string' ? enumName(value) : value;
  if (!isInputObjectType(type) || typeof value !== 'object' || value === null) return value;
  const fields = type.getFields();
  return Object.fromEntries(
    Object.entries(value).map(([key, item]): [string, unknown] => {
      const field = fields[key] as (typeof fields)[string] | undefined;
      return [key, field ? asGraphql(field.type, item) : item];
    }),
  );
}

/** Everything that an answer can show, objects in objects down to a depth. */
function selectionOf(type: GraphQLOutputType, depth: number): string {
  if (isNonNullType(type) || isListType(type)) {
    return selectionOf(type.ofType as GraphQLOutputType, depth);
  }
  if (isLeafType(type) || !isObjectType(type)) return '';
  const shown = Object.values(type.getFields())
    .filter(({ args }) => !args.some(isRequiredArgument))
    .flatMap((field): string[] => {
      const inner = selectionOf(field.type, depth - 1);
      if (inner === '' && !isLeaf(field.type)) return [];
      return depth > 1 || isLeaf(field.type) ? [`${field.name}${inner}`] : [];
    });
  return shown.length > 0 ? ` { ${shown.join(' ')} }` : ' { __typename }';
}

function isLeaf(type: GraphQLOutputType): boolean {
  return isNonNullType(type) || isListType(type)
    ? isLeaf(type.ofType as GraphQLOutputType)
    : isLeafType(type);
}

/** With its default, or a variable that is left out would be missing where none may be. */
function declaration({ type, defaultValue }: GraphQLArgument): string {
  const preset = defaultValue === undefined ? null : astFromValue(defaultValue, type);
  return preset ? `${String(type)} = ${print(preset)}` : String(type);
}

/** The query of one field; its arguments, all of them, come as variables. */
export function queryOf({ kind, field }: GraphqlOperation, depth: number): string {
  const declared = field.args.map((arg) => `$${arg.name}: ${declaration(arg)}`).join(', ');
  const passed = field.args.map(({ name }) => `${name}: $${name}`).join(', ');
  const heading = declared === '' ? kind : `${kind} (${declared})`;
  const call = passed === '' ? field.name : `${field.name}(${passed})`;
  return `${heading} { ${call}${selectionOf(field.type, depth)} }`;
}
