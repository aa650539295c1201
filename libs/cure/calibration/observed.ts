import type { Milestone } from '../material/material.ts';

/**
 * One finding on a film or cup: `age` is how far its clock had come by the sheet (1: the sheet
 * says that the milestone is reached just then), over the temperatures it really had.
 */
export interface Finding {
  readonly id: string;
  readonly milestone: Milestone;
  readonly found: 'just-now' | 'already' | 'not-yet';
  readonly age: number;
  /** Findings with one name here are of one film or cup, and tell no more than the last word on it. */
  readonly film?: string;
}

/** What became of a finding: why it was left out, or null where it counts. */
export interface Judged {
  readonly finding: Finding;
  readonly flag: 'outlier' | 'contradicts' | 'implied' | null;
  readonly words: string;
}

/** The yard's own factor on a milestone's times: median, and its spread as a factor of at least 1. */
export interface Calibration {
  readonly milestone: Milestone;
  readonly factor: number;
  readonly spread: number;
  /** Those of the sheet alone. */
  readonly prior: { readonly factor: number; readonly spread: number };
  readonly evidence: readonly Judged[];
}
