import { crew, row, type Rule } from '../rule.ts';

/** What somebody is to be told at a moment, and where notifications go. */
export const alarms: readonly Rule[] = [
  row('alarms.list', ['GET yards/{yardId}/alarms', 'Query.alarms'], crew, 'yard', 'read'),
  row(
    'alarms.follow',
    ['GET yards/{yardId}/alarms/stream', 'Subscription.alarms'],
    crew,
    'yard',
    'read',
  ),
  row(
    'alarms.shown',
    ['POST yards/{yardId}/alarms/{id}/shown', 'Mutation.alarmShown'],
    crew,
    'alarm',
    'work',
  ),
  row(
    'alarms.acknowledge',
    ['POST yards/{yardId}/alarms/{id}/acknowledge', 'Mutation.acknowledgeAlarm'],
    crew,
    'alarm',
    'work',
  ),
  // Nobody asks for them: `may` says who is told, as far as they still have the role by then.
  row('alarms.ring', ['job alarm'], crew, 'alarm', null),
  row('push.send', ['job push'], crew, 'push-subscription', null),
  row('push.key', ['GET push-key', 'Query.pushKey'], 'signed-in', 'account', null),
  row(
    'push.subscribe',
    ['POST push-subscriptions', 'Mutation.subscribePush'],
    'signed-in',
    'account',
    null,
  ),
  row(
    'push.list',
    ['GET push-subscriptions', 'Query.pushSubscriptions'],
    'signed-in',
    'account',
    null,
  ),
  row(
    'push.remove',
    ['DELETE push-subscriptions/{id}', 'Mutation.removePushSubscription'],
    'signed-in',
    'push-subscription',
    null,
  ),
];
