import { SetMetadata } from '@nestjs/common';

export const ownKeysKey = 'curewright:own-keys';

/**
 * Of a command whose parts have keys of their own and are done one by one: an `Idempotency-Key` of the
 * whole would keep the answer to the first part as that to all.
 */
export const OwnKeys = (): MethodDecorator => SetMetadata(ownKeysKey, true);
