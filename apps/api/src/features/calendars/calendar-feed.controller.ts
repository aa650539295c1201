import { Controller, Get, Headers, Param, Res } from '@nestjs/common';
import { ApiHeader, ApiProduces, ApiResponse } from '@nestjs/swagger';
import type { FastifyReply } from 'fastify';
import { FeedsService } from './feeds.service.ts';
import { hasAlready } from './if-none-match.ts';

/** Calendar clients sign in nowhere: the address is the secret, and what it opens is read only. */
@Controller('calendars')
export class CalendarFeedController {
  constructor(private readonly feeds: FeedsService) {}

  @Get(':secret.ics')
  @ApiProduces('text/calendar')
  @ApiResponse({ status: 200, description: 'OK', schema: { type: 'string' } })
  @ApiResponse({ status: 304, description: 'As it was read' })
  @ApiHeader({ name: 'If-None-Match', required: false, description: 'The ETag that was read.' })
  async read(
    @Param('secret') secret: string,
    @Headers('if-none-match') ifNoneMatch: string | undefined,
    @Res({ passthrough: true }) reply: FastifyReply,
  ): Promise<string | undefined> {
    const { text, etag, changedAt, fileName } = await this.feeds.read(secret);
    void reply.headers({
      etag,
      'last-modified': changedAt.toUTCString(),
      // Kept by the client alone, and asked about each time: a revoked address is to end at once.
      'cache-control': 'private, no-cache',
    });
    if (hasAlready(ifNoneMatch, etag)) {
      void reply.code(304);
      return undefined;
    }
    void reply
      .type('text/calendar; charset=utf-8')
      .header('content-disposition', `inline; filename="${fileName}"`);
    return text;
  }
}
