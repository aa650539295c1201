import 'reflect-metadata';
import { readFileSync } from 'node:fs';
import type { Type } from '@nestjs/common';
import { MetadataScanner } from '@nestjs/core';
import { buildSchema } from 'graphql';
import { describe, expect, it } from 'vitest';
import { faces, ruleOf, table } from '#access/table.ts';
import { AppModule } from './app.module.ts';
import { handlersOf } from './platform/access/handlers.ts';
import { HealthController } from './platform/http/health.controller.ts';

/** The controllers and providers of the module tree, as it is declared. */
function classesOf(part: unknown, seen = new Set<unknown>()): Type[] {
  if (typeof part !== 'function' || seen.has(part)) return [];
  seen.add(part);
  const listed = (key: string): unknown[] =>
    (Reflect.getMetadata(key, part) as unknown[] | undefined) ?? [];
  const own = [...listed('controllers'), ...listed('providers')];
  const isType = (of: unknown): of is Type => typeof of === 'function';
  return [...own.filter(isType), ...listed('imports').flatMap((sub) => classesOf(sub, seen))];
}

const handlers = handlersOf([HealthController, ...classesOf(AppModule)], new MetadataScanner());
const schema = buildSchema(readFileSync(new URL('../schema.graphql', import.meta.url), 'utf8'));

/** Which method of which services a handler may call: `list` of SkillsService. */
function calledBy(face: string): { method: string | undefined; services: unknown[] } {
  const handler = handlers.find((other) => other.face === face);
  if (!handler) throw new Error(`nobody answers to ${face}`);
  const { owner, method } = handler;
  const text = String(Reflect.get(owner.prototype as object, method));
  const services = Reflect.getMetadata('design:paramtypes', owner) as unknown[];
  return { method: /this\.\w+\.(\w+)\(/.exec(text)?.[1], services };
}

describe('the table of access', () => {
  it('has a row for every handler, and a handler for every row', () => {
    expect(handlers.length).toBeGreaterThan(250);
    const answered = handlers.map(({ face }) => face).sort();
    expect(answered).toEqual([...faces].filter((face) => !face.startsWith('job ')).sort());
  });

  it('has on one row what does the same on both faces', () => {
    const pairs = table.flatMap((rule) => {
      const rest = rule.faces.find((face) => /^[A-Z]+ /.test(face));
      const graphql = rule.faces.find((face) => /^(Query|Mutation|Subscription)\./.test(face));
      return rest && graphql ? [{ rest, graphql }] : [];
    });
    expect(pairs.length).toBeGreaterThan(100);
    const apart = pairs.filter(({ rest, graphql }) => {
      const [one, other] = [calledBy(rest), calledBy(graphql)];
      const shared = one.services.some((service) => other.services.includes(service));
      return !shared || one.method === undefined || one.method !== other.method;
    });
    expect(apart).toEqual([]);
  });

  it('gives roles exactly where a field of GraphQL names a yard', () => {
    const roots = [schema.getQueryType(), schema.getMutationType(), schema.getSubscriptionType()];
    const fields = roots.flatMap((root) => (root ? Object.values(root.getFields()) : []));
    expect(fields.length).toBeGreaterThan(100);
    for (const root of roots) {
      for (const { name, args } of Object.values(root?.getFields() ?? {})) {
        const face = `${root?.name ?? ''}.${name}`;
        const namesYard = args.some((arg) => arg.name === 'yardId');
        expect(typeof ruleOf(face)?.may === 'object', face).toBe(namesYard);
      }
    }
  });
});
