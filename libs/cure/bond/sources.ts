/** What the bond rules rest on, as a person would look it up. */
export const ICS = 'Iranian Classification Society, Rules for FRP Ships (2014), ch. 3';
export const SURFACE_PREPARATION =
  'West System, Surface Preparations: cured epoxy, tacky epoxy, wood, metal';
export const POLYESTER_ON_EPOXY =
  'Jamestown Distributors, Can polyester resin be applied over a 2-part epoxy based primer';
export const GEL_COAT_CLASH =
  'Epoxyworks, Applying polyester gelcoat over epoxy (fine on cured, washed epoxy); against it Evercoat, Gel Coat: Basic Information';
export const CLEAN_FIRST =
  'Practical Sailor, Careful Application Saves Your Sanding Arm: sanding before washing drives contaminants in';
export const FAIRING_NOTES =
  'Fairing notes of a stitch-and-glue supplier (wellcraftv20.com, thread 13305)';
export const PRACTICE = 'common practice, no source';
