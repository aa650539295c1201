import { Logger } from '@nestjs/common';
import { NestFactory } from '@nestjs/core';
import { GraphQLSchemaBuilderModule, GraphQLSchemaFactory } from '@nestjs/graphql';
import { lexicographicSortSchema, printSchema } from 'graphql';

type Class = new (...args: never[]) => unknown;

/** The whole schema as text, from the resolvers of the module tree; needs no database. */
export async function schemaText(root: Class): Promise<string> {
  Logger.overrideLogger(false);
  const builder = await NestFactory.createApplicationContext(GraphQLSchemaBuilderModule);
  try {
    const schema = await builder.get(GraphQLSchemaFactory).create(resolversOf(root, new Set()));
    const heading =
      '# Made by `npm run schema` from the shapes and resolvers of apps/api; not edited by hand.\n\n';
    return `${heading}${printSchema(lexicographicSortSchema(schema))}\n`;
  } finally {
    await builder.close();
  }
}

function resolversOf(part: unknown, seen: Set<unknown>): Class[] {
  if (seen.has(part) || typeof part !== 'function') return [];
  seen.add(part);
  const listed = (key: string): unknown[] =>
    (Reflect.getMetadata(key, part) as unknown[] | undefined) ?? [];
  const own = listed('providers').filter(isResolver);
  return [...own, ...listed('imports').flatMap((module) => resolversOf(module, seen))];
}

function isResolver(provider: unknown): provider is Class {
  return typeof provider === 'function' && Reflect.hasMetadata('graphql:resolver_type', provider);
}
