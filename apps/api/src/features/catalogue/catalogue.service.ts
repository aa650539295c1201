import { Injectable } from '@nestjs/common';
import { CATALOGUE_VERSION, CLASSES, classOf } from '#cure/catalogue/classes.ts';
import { FABRICS } from '#cure/catalogue/fabrics.ts';
import { DomainError } from '#kernel/error.ts';
import { showEffective } from '../../effective-sheet.ts';
import type { CatalogueFabrics, ClassList, MaterialClass } from './catalogue.contract.ts';

/** Generic classes of material and reinforcement that a yard starts from; the same in every yard. */
@Injectable()
export class CatalogueService {
  classes(): ClassList {
    const items = CLASSES.map((one) => ({ id: one.id, ...showEffective(one) }));
    return { catalogue: CATALOGUE_VERSION, items };
  }

  class(id: string): MaterialClass {
    const found = classOf(id);
    if (!found) throw new DomainError('record.missing', `The catalogue has no class "${id}".`);
    return { id, ...showEffective(found) };
  }

  fabrics(): CatalogueFabrics {
    const items = FABRICS.map(({ published: [low, high], ...fabric }) => ({
      ...fabric,
      published: { low, high },
    }));
    return { catalogue: CATALOGUE_VERSION, items };
  }
}
