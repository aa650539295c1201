import { EventEmitter } from 'node:events';
import { setTimeout } from 'node:timers/promises';
import { Controller, Get, Module, type StreamableFile } from '@nestjs/common';
import { Args, Query, ResolveField, Resolver, Subscription } from '@nestjs/graphql';
import { z } from 'zod';
import { foreman, members, row, type Rule } from '#access/rule.ts';
import { service } from '#access/table/service.ts';
import { By, YardArg } from '../access/caller.ts';
import type { Viewer } from '../access/viewer.ts';
import { outputShape } from '../shapes/shape.ts';
import { leavable } from '../streams/leavable.ts';
import { GetSse, sseOf } from '../streams/sse.ts';

/** Emits `begun` once a slow request is in its handler. */
export const slow = new EventEmitter<{ begun: [] }>();

/** Handlers that tests hang into the platform, since it has none that fail or stream by itself. */
@Controller('probe')
class ProbeController {
  @Get('fault')
  fault(): never {
    throw new Error('password of the database: hunter2');
  }

  @Get('slow')
  async slow(): Promise<string> {
    slow.emit('begun');
    await setTimeout(500);
    return 'done';
  }

  @GetSse('yards/:yardId/ticks')
  ticks(@By() viewer: Viewer): StreamableFile {
    return sseOf(ticking(), (n) => ({
      id: String(n),
      event: 'tick',
      data: { n, for: viewer.memberId },
    }));
  }
}

const Probe = outputShape('Probe', z.object({ name: z.string() }));
type Probe = z.output<typeof Probe.schema>;

@Resolver(() => Probe)
class ProbeResolver {
  @Query(() => String)
  fault(): string {
    throw new Error('password of the database: hunter2');
  }

  @Query(() => Probe)
  probe(@By() viewer: Viewer, @YardArg() _yardId: string): Probe {
    return { name: viewer.memberId };
  }

  @ResolveField(() => String)
  costs(@By() viewer: Viewer): string {
    return `known to ${viewer.memberId}`;
  }

  @Subscription(() => String)
  who(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @Args('times') times: number,
  ): AsyncIterableIterator<{ who: string }> {
    return named(viewer.memberId, times);
  }

  @Subscription(() => Number)
  ticks(@YardArg() _yardId: string): AsyncIterableIterator<{ ticks: number }, void> {
    return leavable(async function* (left) {
      for await (const ticks of ticking(left)) yield { ticks };
    });
  }
}

async function* named(who: string, times: number): AsyncIterableIterator<{ who: string }> {
  for (let n = 0; n < times; n += 1) yield await Promise.resolve({ who: `${who} ${n}` });
}

/** 0, 1, 2, … with a breath between them, for as long as somebody listens. */
function ticking(until?: AbortSignal): AsyncIterableIterator<number, void> {
  return leavable(async function* (left) {
    for (let n = 0; !left.aborted && until?.aborted !== true; n += 1) {
      yield n;
      await setTimeout(20);
    }
  });
}

/** The rows of its handlers, and of what the platform has by itself. */
export const probeTable: readonly Rule[] = [
  ...service,
  row('probe.fault', ['GET probe/fault', 'Query.fault'], 'anyone', 'service', null),
  row('probe.slow', ['GET probe/slow'], 'anyone', 'service', null),
  row('probe.get', ['Query.probe'], members, 'yard', 'read'),
  row('probe.costs', ['field Probe.costs'], foreman, 'yard', 'read'),
  row('probe.who', ['Subscription.who'], foreman, 'yard', 'read'),
  row(
    'probe.ticks',
    ['GET probe/yards/{yardId}/ticks', 'Subscription.ticks'],
    members,
    'yard',
    'read',
  ),
];

/** Its handler's access was forgotten. */
@Controller('open')
class OpenController {
  @Get()
  nobodyDecided(): string {
    return 'for all?';
  }
}

@Module({ controllers: [ProbeController], providers: [ProbeResolver] })
export class ProbeModule {}

@Module({ controllers: [OpenController], providers: [ProbeResolver] })
export class OpenModule {}
