import { Injectable, type OnModuleInit } from '@nestjs/common';
import { HttpAdapterHost } from '@nestjs/core';
import type { FastifyAdapter } from '@nestjs/platform-fastify';
import { servePage } from '../../platform/pages/serve-page.ts';

/** What the link of a mail opens: choose a password, or have such a link sent. */
@Injectable()
export class PasswordPage implements OnModuleInit {
  constructor(private readonly host: HttpAdapterHost<FastifyAdapter>) {}

  onModuleInit(): Promise<void> {
    const fastify = this.host.httpAdapter.getInstance();
    return servePage(fastify, 'password', new URL('./page/', import.meta.url));
  }
}
