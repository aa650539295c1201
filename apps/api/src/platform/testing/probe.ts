import { EventEmitter } from 'node:events';
import { setTimeout } from 'node:timers/promises';
import { Controller, Get, Module } from '@nestjs/common';
import { Args, Query, Resolver, Subscription } from '@nestjs/graphql';
import { By, YardArg } from '../access/caller.ts';
import { May, Public } from '../access/rules.ts';
import type { Viewer } from '../access/viewer.ts';

/** Emits `begun` once a slow request is in its handler. */
export const slow = new EventEmitter<{ begun: [] }>();

/** Handlers that tests hang into the platform, since it has none that fail or stream by itself. */
@Controller('probe')
class ProbeController {
  @Get('fault')
  @Public()
  fault(): never {
    throw new Error('password of the database: hunter2');
  }

  @Get('slow')
  @Public()
  async slow(): Promise<string> {
    slow.emit('begun');
    await setTimeout(500);
    return 'done';
  }
}

@Resolver()
class ProbeResolver {
  @Query(() => String)
  @Public()
  fault(): string {
    throw new Error('password of the database: hunter2');
  }

  @Subscription(() => String)
  @May('foreman')
  who(
    @By() viewer: Viewer,
    @YardArg() _yardId: string,
    @Args('times') times: number,
  ): AsyncIterableIterator<{ who: string }> {
    return named(viewer.memberId, times);
  }
}

async function* named(who: string, times: number): AsyncIterableIterator<{ who: string }> {
  for (let n = 0; n < times; n += 1) yield await Promise.resolve({ who: `${who} ${n}` });
}

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
