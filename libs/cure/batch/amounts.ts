/** A reinforcement: resin in grams per gram of it. */
export interface Fabric {
  readonly id: string;
  readonly name: string;
  readonly gramsPerM2: number;
  readonly resinRatio: number;
}

export interface FabricAmount {
  readonly id: string;
  readonly name: string;
  readonly squareMetres: number;
  readonly grams: number;
}

/** What one piece of work needs: cut fabric, and grams of mix with the waste in it. */
export interface Amounts {
  readonly fabrics: readonly FabricAmount[];
  /** Resin and hardener together. */
  readonly mixGrams: number;
  /** How thick the mix stands where it is spread, millimetres; null where it cannot be said. */
  readonly filmMm: number | null;
  /** The arithmetic in words, line by line, as a builder would check it. */
  readonly steps: readonly string[];
}

/** One cup of several, minutes from the start of the work. */
export interface Cup {
  readonly grams: number;
  readonly mixAt: number;
  readonly spreadBy: number;
  readonly potLifeEnds: number;
}
