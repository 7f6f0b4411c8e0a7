/** Files of the extension that the build writes from the declared functions; run by the build, not shipped. */
import { hostFunctions } from '../sheet/host-functions.ts';
import { description, functionsXcu, jobsXcu, JOB, manifest, menuXcu } from './configuration.ts';
import { ofCells, services } from './service.ts';
import { typeLibrary } from './type-library.ts';

const MODULE = 'org.rodsheet';

/** Contents by path; `version` is that of the package. */
export function extensionFiles(version: string): Readonly<Record<string, string | Uint8Array>> {
  const all = services(hostFunctions);
  const described = {
    module: MODULE,
    job: JOB,
    services: all.map((s) => ({
      name: s.name,
      interface: s.interface,
      methods: s.methods.map((method) => ({
        id: method.id,
        name: method.name,
        ofCells: ofCells(method),
        zeroIsBlank: method.parameters.map((p) => p.zeroIsBlank ?? false),
      })),
    })),
  };
  const configuration = { 'CalcAddIns.xcu': functionsXcu(all), 'Addons.xcu': menuXcu(), 'Jobs.xcu': jobsXcu() };
  return {
    'META-INF/manifest.xml': manifest('functions.rdb', Object.keys(configuration), 'rodsheet.py'),
    'description.xml': description(version),
    'description.txt': `Sizes oxygen, rods and time for exothermic-rod work with the functions ${all[0]?.methods[0]?.name ?? ''} and others. Needs Node.js.\n`,
    'functions.rdb': typeLibrary(MODULE, all),
    'functions.json': `${JSON.stringify(described)}\n`,
    ...configuration,
  };
}
