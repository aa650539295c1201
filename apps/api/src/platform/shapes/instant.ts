import { GraphQLError, GraphQLScalarType, Kind } from 'graphql';

/**
 * The one instant of GraphQL: RFC 3339 text, as in REST. It stays text on the way in, since the
 * shape's own check follows and names the path of what is wrong.
 */
export const Instant = new GraphQLScalarType<string, string>({
  name: 'Instant',
  description: 'An instant, RFC 3339 with its offset or Z, e.g. 2026-11-02T07:00:00Z.',
  specifiedByURL: 'https://www.rfc-editor.org/rfc/rfc3339',
  parseValue: text,
  serialize: (value) => (value instanceof Date ? value.toISOString() : text(value)),
  parseLiteral: (node) => text(node.kind === Kind.STRING ? node.value : undefined),
});

function text(value: unknown): string {
  if (typeof value === 'string') return value;
  throw new GraphQLError('an instant is text such as 2026-11-02T07:00:00Z');
}
