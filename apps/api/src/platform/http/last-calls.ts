import {
  type BeforeApplicationShutdown,
  Injectable,
  type OnApplicationShutdown,
} from '@nestjs/common';
import { HttpAdapterHost } from '@nestjs/core';
import type { FastifyAdapter } from '@nestjs/platform-fastify';

/** Long enough for any request that is not a stream. */
const graceMs = 3_000;

/** At the end running requests are let through; a stream that stays open is cut after a grace. */
@Injectable()
export class LastCalls implements BeforeApplicationShutdown, OnApplicationShutdown {
  #cut: NodeJS.Timeout | undefined;

  constructor(private readonly host: HttpAdapterHost<FastifyAdapter>) {}

  beforeApplicationShutdown(): void {
    const { server } = this.host.httpAdapter.getInstance();
    this.#cut = setTimeout(() => {
      server.closeAllConnections();
    }, graceMs);
  }

  onApplicationShutdown(): void {
    clearTimeout(this.#cut);
  }
}
