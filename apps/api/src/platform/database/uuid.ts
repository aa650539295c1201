/** The database refuses to compare anything else with an id of its own making. */
export const isUuid = (id: string): boolean =>
  /^[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}$/i.test(id);
