import { Inject, Injectable, type OnApplicationBootstrap, type Type } from '@nestjs/common';
import { DiscoveryService, MetadataScanner } from '@nestjs/core';
import type { Rule } from '#access/rule.ts';
import { rulesToken } from './access.ts';
import { handlersOf } from './handlers.ts';

/**
 * Default deny, found at start: a handler whose access nobody decided keeps the service from
 * starting, and so does a row that no handler answers to, which would be a wish and not a rule.
 */
@Injectable()
export class RuleCheck implements OnApplicationBootstrap {
  constructor(
    private readonly discovery: DiscoveryService,
    private readonly scanner: MetadataScanner,
    @Inject(rulesToken) private readonly rules: ReadonlyMap<string, Rule>,
  ) {}

  onApplicationBootstrap(): void {
    const classes = [...this.discovery.getControllers(), ...this.discovery.getProviders()].flatMap(
      ({ metatype }) => (isClass(metatype) ? [metatype] : []),
    );
    const handlers = handlersOf(classes, this.scanner);
    const answered = new Set(handlers.map(({ face }) => face));
    const open = handlers
      .filter(({ face }) => !this.rules.has(face))
      .map(
        ({ face, owner, method }) => `no row of the table for ${face} (${owner.name}.${method})`,
      );
    const empty = [...this.rules]
      .filter(([face]) => !face.startsWith('job ') && !answered.has(face))
      .map(([face, { operation }]) => `no handler for ${face} (row ${operation})`);
    const wrong = [...open, ...empty];
    if (wrong.length > 0)
      throw new Error(`Who may do what is not settled:\n  ${wrong.join('\n  ')}`);
  }
}

function isClass(metatype: unknown): metatype is Type {
  return typeof metatype === 'function' && typeof metatype.prototype === 'object';
}
