/** Minutes by which a start may differ from what people have been told without having moved. */
export const TOLERANCE_MINUTES = 15;
