import { Inject, Injectable } from '@nestjs/common';
import { type RateLimiterPostgres, RateLimiterRes } from 'rate-limiter-flexible';
import { type Config, configToken } from '../config/config.ts';
import { BackOff } from './back-off.ts';
import { LimitStore } from './limit-store.ts';
import { sourceOf } from './source.ts';
import { Throttled } from './throttled.ts';

/** A whole yard may sit behind one address: it has as many attempts as so many accounts. */
const addressShare = 10;

/** How long an address counts as one that the account is used from, s; no timer takes a month. */
const known = 14 * 24 * 60 * 60;

/** Mails that one address may have sent before it has to wait. */
const mails = 20;

/** Invitations that one account may have mailed within the hour, over all yards that it founds. */
const invitations = { count: 120, seconds: 60 * 60 };

/**
 * How often secrets may be tried: per account, so that one cannot be guessed from many addresses,
 * and per address, so that many cannot be guessed from one. From an address that signed in to an
 * account lately the account has a count apart: a stranger's guesses elsewhere shut nobody out
 * (OWASP, Blocking Brute Force Attacks).
 *
 * `account` is whatever names it: the e-mail as it was typed, whether or not there is such an
 * account, or `code:` and its id for second factors, so that these have counts of their own; null
 * where an attempt names none (a link, a passkey). `address` is `request.ip`.
 */
@Injectable()
export class SignInLimits {
  readonly #accounts: BackOff;
  readonly #addresses: BackOff;
  readonly #known: RateLimiterPostgres;
  readonly #mails: BackOff;
  readonly #invitations: RateLimiterPostgres;

  constructor(
    private readonly store: LimitStore,
    @Inject(configToken) { signInAttempts }: Config,
  ) {
    this.#accounts = new BackOff(store, 'account', signInAttempts);
    this.#addresses = new BackOff(store, 'address', signInAttempts * addressShare);
    this.#known = store.counter('known', Number.MAX_SAFE_INTEGER, known);
    this.#mails = new BackOff(store, 'mails', mails);
    this.#invitations = store.counter('invitations', invitations.count, invitations.seconds);
  }

  /**
   * Counts an attempt, before the secret is looked at, so that many at once are no way around. It
   * goes on counting unless it `succeeded`. Throws `access.often`.
   */
  async attempt(account: string | null, address: string): Promise<void> {
    const keys = this.#keysOf(account, address);
    await this.#addresses.count(keys.address, 'attempts from your address');
    if (account === null) return;
    const isKnown = await this.#isKnown(keys.pair);
    await this.#accounts.count(isKnown ? keys.pair : keys.account, 'attempts');
  }

  /** The secret was right: the attempt does not count, nor do those before it from where it came. */
  async succeeded(account: string | null, address: string): Promise<void> {
    const keys = this.#keysOf(account, address);
    // Only the one: somebody with an account could else clear the address between guesses at others.
    await this.#addresses.giveBack(keys.address);
    if (account === null) return;
    // Guesses from elsewhere go on counting.
    await this.#accounts.forget((await this.#isKnown(keys.pair)) ? keys.pair : keys.account);
    await this.#known.set(keys.pair, 1, known);
  }

  /** Counts a mail that somebody not signed in has sent to whomever. Throws `access.often`. */
  async mailed(address: string): Promise<void> {
    await this.#mails.count(this.store.keyOf(sourceOf(address)), 'mails asked for');
  }

  /** Counts an invitation that the account has mailed. Throws `access.often`. */
  async invited(accountId: string): Promise<void> {
    try {
      await this.#invitations.consume(this.store.keyOf(accountId));
    } catch (refused) {
      if (!(refused instanceof RateLimiterRes)) throw refused;
      throw new Throttled('invitations by mail', refused.msBeforeNext);
    }
  }

  async #isKnown(pair: string): Promise<boolean> {
    return (await this.#known.get(pair)) !== null;
  }

  #keysOf(account: string | null, address: string) {
    const source = sourceOf(address);
    const name = (account ?? '').trim().toLowerCase();
    return {
      address: this.store.keyOf(source),
      account: this.store.keyOf('', name),
      pair: this.store.keyOf(source, name),
    };
  }
}
