import { type ExecutionContext, Inject, Injectable } from '@nestjs/common';
import { OperationTypeNode } from 'graphql';
import type { Rule } from '#access/rule.ts';
import { DomainError } from '#kernel/error.ts';
import { type Config, configToken } from '../config/config.ts';
import { connectionOf, isGraphql, infoOf, knownCaller, requestOf, yardIdOf } from './caller.ts';
import { Callers } from './callers.ts';
import { csrfHeader, isForeign, provesSession } from './csrf.ts';
import { faceOf, isBelowRoot } from './face.ts';
import { admitted, refusalOf } from './refusal.ts';
import { bearerOf, type Credential, credentialOf } from './token.ts';
import type { Caller } from './viewer.ts';

/** The table's rows by face, as the guard goes by them. */
export const rulesToken = Symbol('rules');

/** A call that was let in by a credential, and what it takes to ask again whether it still would be. */
export interface Admission {
  readonly caller: Caller;
  readonly rule: Rule;
  readonly credential: Credential;
  readonly yardId: string | undefined;
  readonly endsAt: Date | null;
  readonly notices: readonly string[];
}

/** `refusal` null: it would be let in again. */
export interface Standing {
  readonly refusal: DomainError | null;
  readonly endsAt: Date | null;
}

const admissions = new WeakMap<Caller, Admission>();

/** Undefined where nobody had to show anything. */
export function admissionOf(caller: Caller): Admission | undefined {
  return admissions.get(caller);
}

/** Says of each call who it is from and whether the table lets them. */
@Injectable()
export class Access {
  constructor(
    @Inject(rulesToken) private readonly rules: ReadonlyMap<string, Rule>,
    @Inject(configToken) private readonly config: Config,
    private readonly callers: Callers,
  ) {}

  /** Who calls; throws why they may not. */
  async admit(context: ExecutionContext): Promise<Caller> {
    const rule = this.rules.get(faceOf(context));
    if (!rule) throw new DomainError('access.role');
    if (isBelowRoot(context)) return below(context, rule);
    const credential = this.#credential(context, rule);
    const yardId = typeof rule.may === 'string' ? undefined : yardIdOf(context);
    const known = await this.callers.known(credential, yardId, true);
    const refusal = refusalOf(rule, known);
    if (refusal) throw refusal;
    const caller = admitted(rule, known.caller);
    const { endsAt, notices } = known;
    if (credential) admissions.set(caller, { caller, rule, credential, yardId, endsAt, notices });
    return caller;
  }

  /** How a call that was let in stands by now. Asking counts as no sign of life. */
  async standing({ caller, rule, credential, yardId }: Admission): Promise<Standing> {
    const known = await this.callers.known(credential, yardId, false);
    const { endsAt } = known;
    const refusal = refusalOf(rule, known);
    if (refusal || rolesOf(known.caller) === rolesOf(caller)) return { refusal, endsAt };
    const words = 'Your roles in the yard have changed.';
    return { refusal: new DomainError('access.role', words, { cure: 'Open it again.' }), endsAt };
  }

  /**
   * What the call shows. A browser adds the cookie to whatever any page makes it send: where
   * something may change it counts only with proof that one of our own pages sent it.
   */
  #credential(context: ExecutionContext, rule: Rule): Credential | undefined {
    const { headers } = requestOf(context);
    const connection = connectionOf(context);
    const credential =
      bearerOf(connection?.authorization) ?? credentialOf(headers, this.config.secureCookie);
    if (credential && credential.by !== 'cookie') return credential;
    if (onlyReads(context)) return credential;
    if (isForeign(headers, this.config.publicUrl)) {
      const cure = `Open ${this.config.publicUrl.origin} and do it from there.`;
      throw new DomainError('access.forged', 'A page of another address sent it.', { cure });
    }
    if (!credential) return undefined;
    const proof = connection ? connection.csrf : headers[csrfHeader];
    if (provesSession(credential.token, proof)) return credential;
    if (rule.may === 'anyone') return undefined;
    throw new DomainError('access.forged');
  }
}

/** A field with a resolver of its own: asked for by whoever the guard let into the root field. */
function below(context: ExecutionContext, rule: Rule): Caller {
  const caller = knownCaller(context);
  // The events of a subscription come without the guard, so nobody is known below them.
  if (!caller) throw new DomainError('access.role');
  const refusal = refusalOf(rule, { caller, lacksSecondFactor: false });
  if (refusal) throw refusal;
  return caller;
}

/** RFC 9110, 9.2.1; GraphQL by GET can only be a query. A socket is opened by GET, and is not meant. */
function onlyReads(context: ExecutionContext): boolean {
  if (isGraphql(context) && infoOf(context).operation.operation !== OperationTypeNode.QUERY) {
    return false;
  }
  return ['GET', 'HEAD'].includes(requestOf(context).method);
}

function rolesOf({ viewer }: Caller): string {
  return [...(viewer?.roles ?? [])].sort().join(' ');
}
