import { Models, SPDX } from '@cyclonedx/cyclonedx-library';

/** A licence as a bill of materials names it: by its SPDX id, as an expression of several, else in the package's own words. */
export function licenceIds(licence: string): readonly Models.License[] {
  if (SPDX.isSupportedSpdxId(licence)) return [new Models.SpdxLicense(licence)];
  if (/^\(?[\w.-]+( (AND|OR|WITH) [\w.-]+)+\)?$/.test(licence)) return [new Models.LicenseExpression(licence)];
  return [new Models.NamedLicense(licence)];
}
