import { type CanActivate, type ExecutionContext, Injectable } from '@nestjs/common';
import { Access } from './access.ts';
import { setCaller } from './caller.ts';

/** Stands before every handler of REST and GraphQL; what has no row in the table is refused. */
@Injectable()
export class AccessGuard implements CanActivate {
  constructor(private readonly access: Access) {}

  async canActivate(context: ExecutionContext): Promise<boolean> {
    setCaller(context, await this.access.admit(context));
    return true;
  }
}
