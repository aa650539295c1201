import { account as texts } from '../../texts/account.ts';
import { deviceOf } from './agent.ts';

/** What a browser or program said of itself, for its owner to know it by. */
export function deviceWords(agent: string): string {
  const device = deviceOf(agent);
  if (device !== null) return texts.on(device.browser, device.system);
  return agent === '' ? texts.unknownDevice : agent;
}
