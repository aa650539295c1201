import type { Schema } from '../api/client.ts';

/** What a phone reports of work, a thermometer or a film. */
export type Command = Schema<'ReportCommandInput'>;
export type WorkKind = Exclude<Command['kind'], 'reading' | 'tack-test'>;

/** A picture, small enough to be sent. */
export interface Photo {
  /** A UUID: sent again, it is the same picture. */
  readonly key: string;
  readonly picture: Blob;
}

export interface SnagRaised {
  readonly kind: 'snag';
  readonly partId: string;
  readonly snag: Pick<Schema<'SnagInput'>, 'kind' | 'words' | 'taskId' | 'areaM2'>;
  /** Null until the service has it; photos go after it. */
  readonly snagId: string | null;
  /** Those that are not sent yet. */
  readonly photos: readonly Photo[];
}

/** What somebody has done in the yard, as this device tells the service. */
export type Deed =
  | {
      readonly kind: 'report';
      readonly command: Command;
      /** The claim that is meant, where it was known when it was done. */
      readonly claimId: string | null;
    }
  | SnagRaised
  | { readonly kind: 'noted'; readonly alarmId: string };
