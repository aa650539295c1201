import { Injectable, type OnModuleInit } from '@nestjs/common';
import { HttpAdapterHost } from '@nestjs/core';
import type { FastifyAdapter } from '@nestjs/platform-fastify';
import { servePage } from '../../platform/pages/serve-page.ts';

/** What the link of an invitation opens: come in with an account, or make one. */
@Injectable()
export class InvitationPage implements OnModuleInit {
  constructor(private readonly host: HttpAdapterHost<FastifyAdapter>) {}

  onModuleInit(): Promise<void> {
    const fastify = this.host.httpAdapter.getInstance();
    return servePage(fastify, 'invitation', new URL('./page/', import.meta.url));
  }
}
