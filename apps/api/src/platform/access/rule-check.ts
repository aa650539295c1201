import { Injectable, type OnApplicationBootstrap, RequestMethod } from '@nestjs/common';
import { METHOD_METADATA, PATH_METADATA } from '@nestjs/common/constants.js';
import { DiscoveryService, MetadataScanner } from '@nestjs/core';
import { accessRuleKey } from './rules.ts';

const graphqlHandler = 'graphql:resolver_type';
const graphqlRoots: readonly unknown[] = ['Query', 'Mutation', 'Subscription'];

/** Default deny, found at start: a handler whose access nobody decided keeps the service from starting. */
@Injectable()
export class RuleCheck implements OnApplicationBootstrap {
  constructor(
    private readonly discovery: DiscoveryService,
    private readonly scanner: MetadataScanner,
  ) {}

  onApplicationBootstrap(): void {
    const open = [...this.discovery.getControllers(), ...this.discovery.getProviders()].flatMap(
      ({ metatype }) =>
        typeof metatype === 'function' ? openHandlers(metatype, this.scanner) : [],
    );
    if (open.length > 0) {
      throw new Error(`No access rule (@May, @SignedIn or @Public) on: ${open.join(', ')}`);
    }
  }
}

function openHandlers(
  owner: { readonly name: string; readonly prototype?: unknown },
  scanner: MetadataScanner,
): string[] {
  const prototype = owner.prototype;
  if (typeof prototype !== 'object' || prototype === null) return [];
  return scanner
    .getAllMethodNames(prototype)
    .filter((name) => {
      const method: unknown = Reflect.get(prototype, name);
      return (
        typeof method === 'function' &&
        isHandler(method) &&
        !Reflect.hasMetadata(accessRuleKey, method)
      );
    })
    .map((name) => `${owner.name}.${name}`);
}

function isHandler(method: object): boolean {
  const isRoute =
    Reflect.hasMetadata(PATH_METADATA, method) &&
    Reflect.getMetadata(METHOD_METADATA, method) in RequestMethod;
  return isRoute || graphqlRoots.includes(Reflect.getMetadata(graphqlHandler, method));
}
