import { Controller, Get } from '@nestjs/common';
import { z } from 'zod';
import { Database } from '../database/database.ts';
import { outputShape } from '../shapes/shape.ts';
import { Answers } from './answers.ts';

const Health = outputShape(
  'Health',
  z.object({ status: z.literal('ok'), database: z.literal('ok') }),
);
type Health = z.output<typeof Health.schema>;

@Controller('health')
export class HealthController {
  constructor(private readonly database: Database) {}

  /** 503 while the database does not answer. */
  @Get()
  @Answers(200, Health)
  async health(): Promise<Health> {
    await this.database.ping();
    return { status: 'ok', database: 'ok' };
  }
}
