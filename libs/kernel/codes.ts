/**
 * The one catalogue of errors: REST (problem+json), GraphQL (extensions) and the
 * command line all read it. A `kind` decides the transport's status; `title` says
 * what happened; `cure` says what to do about it when the thrower knows nothing better.
 */
export type ErrorKind =
  | 'invalid' // the input breaks a rule
  | 'unauthenticated' // no valid sign-in
  | 'forbidden' // signed in, but the role may not
  | 'not-found' // absent, or another yard's
  | 'conflict' // true at another moment
  | 'stale' // changed since it was read
  | 'unconditional' // an update that does not say which version it changes
  | 'throttled' // too often; later again
  | 'unavailable'; // try again later

interface CatalogueEntry {
  readonly kind: ErrorKind;
  readonly title: string;
  readonly cure: string;
}

const entry = (kind: ErrorKind, title: string, cure: string): CatalogueEntry => ({
  kind,
  title,
  cure,
});

export const catalogue = {
  'input.malformed': entry(
    'invalid',
    'The input cannot be read',
    'Send valid JSON of the documented shape.',
  ),
  'input.field': entry('invalid', 'A field has a value it cannot have', 'Correct the named field.'),
  'input.limit': entry(
    'invalid',
    'The request asks for too much at once',
    'Ask for less, in several requests.',
  ),
  'yard.empty': entry(
    'invalid',
    'There is nothing to plan',
    'Add a builder, a boat with a refit, and a part with a procedure.',
  ),
  'yard.reference': entry(
    'invalid',
    'Something is referred to that does not exist',
    'Use an id that the yard has, or add what is missing.',
  ),
  'yard.duplicate': entry('invalid', 'Two things share one id', 'Give each its own id.'),
  'yard.cycle': entry(
    'invalid',
    'Tasks wait for each other in a circle',
    'Remove one of the links of the circle.',
  ),
  'yard.skill': entry(
    'invalid',
    'Nobody has the skill',
    'Give the skill to enough builders, or change the step.',
  ),
  'yard.crew': entry(
    'invalid',
    'The crew cannot be put together',
    'Lower the crew, or give the skill to more builders.',
  ),
  'yard.window': entry(
    'invalid',
    'A window cannot open',
    'Warm the space, choose another material, or widen the window.',
  ),
  'yard.shift': entry(
    'invalid',
    'A task is longer than any shift',
    'Split the part, add hands, or lengthen a shift.',
  ),
  'yard.place': entry('invalid', 'The part is somewhere else', 'Add a step that carries it there.'),
  'cure.missing': entry(
    'invalid',
    'The data sheet has no number for it',
    'Enter the named line of the material’s data sheet.',
  ),
  'cure.hardener': entry(
    'invalid',
    'The hardener is outside its range',
    'Use a percentage inside the range of the data sheet.',
  ),
  'cure.implausible': entry(
    'invalid',
    'The number cannot be right',
    'Check the unit: degrees Celsius, minutes, percent by mass, grams, kilograms per litre.',
  ),
  'cure.reading': entry(
    'invalid',
    'The reading cannot be used',
    'Give each moment of a space one reading, none later than now.',
  ),
  'cure.batch': entry(
    'invalid',
    'It cannot be spread in one batch',
    'Add hands, cool the resin or the room, or use a slower hardener.',
  ),
  'cure.bond': entry(
    'invalid',
    'The next material does not bond to the surface',
    'Prepare the surface as the rule says, or use another material.',
  ),
  'yard.shifts-overlap': entry(
    'invalid',
    'Shifts overlap',
    'Shorten or remove one of the two shifts.',
  ),
  'yard.promise': entry(
    'invalid',
    'A boat is promised before it is released',
    'Move the promised date after the release.',
  ),
  'yard.horizon': entry(
    'invalid',
    'The work does not fit before the horizon',
    'Move the horizon out.',
  ),
  'access.sign-in': entry(
    'unauthenticated',
    'Not signed in',
    'Sign in and send the session token.',
  ),
  'access.credentials': entry(
    'unauthenticated',
    'The e-mail or the password is wrong',
    'Try again.',
  ),
  'access.code': entry(
    'unauthenticated',
    'The code is wrong or used up',
    'Wait for the next code of your authenticator, or use a recovery code.',
  ),
  'access.passkey': entry(
    'unauthenticated',
    'The passkey was not accepted',
    'Try again, or sign in with your password.',
  ),
  'access.password': entry(
    'invalid',
    'The password is too easy to guess',
    'Take four or more words that do not belong together.',
  ),
  'access.link': entry('not-found', 'The link is used, too old or unknown', 'Ask for a new one.'),
  'access.second-factor': entry(
    'forbidden',
    'The yard asks for a second factor',
    'Set one up for your account, then sign in with it.',
  ),
  'access.forged': entry(
    'forbidden',
    'The request does not seem to come from our own page',
    'Send the `csrf` value of the session as the header x-csrf-token.',
  ),
  'access.scope': entry(
    'forbidden',
    'The program key does not reach that far',
    'Use a key with the scope that the operation needs, or sign in.',
  ),
  'access.often': entry('throttled', 'Too many attempts', 'Wait as long as Retry-After says.'),
  'access.role': entry('forbidden', 'Your role may not do this', 'Ask the foreman.'),
  'record.missing': entry('not-found', 'There is no such record', 'Check the id.'),
  'record.stale': entry(
    'stale',
    'The record changed since it was read',
    'Read it again and repeat the change with the new ETag.',
  ),
  'record.unguarded': entry(
    'unconditional',
    'The update does not say which version it changes',
    'Send the ETag that was read as If-Match.',
  ),
  'record.exists': entry(
    'conflict',
    'Such a record exists already',
    'Use the existing one, or another name.',
  ),
  'record.in-use': entry('conflict', 'The record is in use', 'Remove what uses it first.'),
  'command.repeated': entry(
    'conflict',
    'This Idempotency-Key was used for another command',
    'Use a fresh key.',
  ),
  'claim.taken': entry(
    'conflict',
    'The task is claimed by someone else',
    'Pick another ready task.',
  ),
  'claim.not-ready': entry('conflict', 'The task is not ready', 'Wait for what it waits for.'),
  'claim.state': entry(
    'conflict',
    'The claim is not in the state for this',
    'Read the claim again.',
  ),
  'claim.lapsed': entry(
    'conflict',
    'The claim has lapsed: it was not started in time',
    'Claim the task again, if it is still free.',
  ),
  'work.unsafe-start': entry(
    'conflict',
    'The work would not come to a good end if it began now',
    'Begin when the reason is gone, or let the foreman start it with a reason.',
  ),
  'work.film': entry(
    'conflict',
    'There is no film to test',
    'Test the film of wet work that is done.',
  ),
  'work.undo': entry(
    'conflict',
    'It can no longer be taken back',
    'Ask the foreman to correct it, or report what is so now.',
  ),
  'report.state': entry(
    'conflict',
    'The report is not in the state for this',
    'Read the report again.',
  ),
  'candidate.state': entry(
    'conflict',
    'The candidate plan is decided already',
    'Read the candidates again.',
  ),
  'snag.state': entry('conflict', 'The snag is not in the state for this', 'Read the snag again.'),
  'snag.photo': entry(
    'invalid',
    'The picture cannot be kept',
    'Send a JPEG, PNG or WebP picture of at most 15 MB.',
  ),
  'change.state': entry(
    'conflict',
    'The change is not in the state for this',
    'Read the change again.',
  ),
  'proposal.stale': entry(
    'conflict',
    'The work has changed since this was priced',
    'Have it priced again, then decide.',
  ),
  'claim.crew': entry(
    'invalid',
    'The crew does not fit the task',
    'Name as many people as the task takes, all with its skill.',
  ),
  'run.state': entry(
    'conflict',
    'The plan run is not in the state for this',
    'Read the run again.',
  ),
  'service.unavailable': entry(
    'unavailable',
    'The service cannot do this now',
    'Try again shortly.',
  ),
} as const satisfies Record<string, CatalogueEntry>;

export type ErrorCode = keyof typeof catalogue;
