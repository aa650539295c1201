import { Injectable } from '@nestjs/common';
import { wholeMinute } from '#live/life/phone.ts';
import type { ReportCommand } from '#live/reports/commands.ts';
import type { Reading } from '#planning/yard/observed.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import type { Tx } from '../../platform/database/database.ts';
import { ObservationsService } from '../observations/observations.service.ts';
import { ReadingsService } from '../readings/readings.service.ts';
import { type Claim, WorkService } from '../work/work.service.ts';

interface Reported {
  /** By the service's clock. */
  readonly at: Date;
  readonly reportId: string;
}

/** Carries out what a phone told, in the caller's transaction; throws what the command itself would be refused with. */
@Injectable()
export class ReportedWork {
  constructor(
    private readonly work: WorkService,
    private readonly readings: ReadingsService,
    private readonly observations: ObservationsService,
  ) {}

  async carryOut(
    tx: Tx,
    viewer: Viewer,
    command: ReportCommand,
    { at, reportId }: Reported,
  ): Promise<Claim | null> {
    const moment = wholeMinute(at);
    switch (command.kind) {
      case 'reading':
        await this.readings.addIn(tx, viewer, [readingOf(command, moment, reportId)]);
        return null;
      case 'tack-test': {
        const { taskId, found, note } = command;
        const id = `tack-test-${reportId}`;
        await this.observations.tackTestIn(tx, viewer, taskId, { found, note }, moment, id);
        return null;
      }
      default:
        return this.work.actIn(tx, viewer, command, { at, reportId });
    }
  }
}

function readingOf(
  { kind: _kind, ...told }: Extract<ReportCommand, { kind: 'reading' }>,
  at: string,
  reportId: string,
): Reading {
  return { ...told, id: `reading-${reportId}`, at, minutes: 0 };
}
