/**
 * The calls whose results are kept: every function with its examples, every operation with every material and rod, other
 * places, methods and assumptions, lists with blank and bad rows. A formula is the call and its name at once.
 */
import { CATALOGUE } from '../../src/catalogue/catalogue.ts';
import { RODS } from '../../src/core/burn/rods.ts';
import { MATERIALS } from '../../src/core/burn/materials.ts';
import { OPERATION_IDS, operationOf, type OperationId } from '../../src/core/operations/all.ts';

const VALUES = ['RODS', 'OXYGEN', 'BURN', 'TIME', 'PRESSURE'] as const;
const EVERY = [...VALUES, 'PLAN', 'STEPS'] as const;
type Result = (typeof EVERY)[number];

/** What is asked of one operation; the arguments as they are typed. */
interface Case {
  readonly sizes?: readonly string[];
  readonly rod?: string;
  readonly material?: string;
  readonly assume?: string;
}

const quoted = (text: string): string => `"${text}"`;
const column = (cells: readonly string[]): string => `{${cells.join(';')}}`;
const row = (cells: readonly string[]): string => `{${cells.join(',')}}`;

const materials = MATERIALS.map((m) => quoted(m.name));
/** Every rod of the register in its longest length, coupled ones, and lengths cut on the spot. */
const rods = [
  ...RODS.map((r) => `${r.name} x ${String(Math.round((r.lengths.at(-1) ?? 0) / 0.0254))}`),
  '3/8',
  '1/4 x 24 coupled',
  '1/2 pipe x 60 coupled',
  '3/8 x 31.5',
  '1/4 x 640 mm',
  '3/4 pipe x 9.5 ft',
].map(quoted);
const everyLength = RODS.flatMap((r) => r.lengths.map((l) => `${r.name} x ${String(Math.round(l / 0.0254))}`)).map(
  quoted,
);

const SIZES: Readonly<Record<OperationId, readonly string[]>> = {
  PIN: ['4', '10', ''],
  HOLE: ['1', '6'],
  GOUGE: ['0.75', '0.5', '24'],
  CUT: ['2', '24'],
  STUD: ['1.5', ''],
  BREACH: ['24', '2.5', ''],
};
/** Wide enough for every rod, and near enough for the short ones. */
const WIDE: Readonly<Partial<Record<OperationId, readonly string[]>>> = {
  HOLE: ['2.5', '6'],
  GOUGE: ['2.5', '0.5', '24'],
  BREACH: ['12', '3', ''],
};
const OTHER_SIZES: Readonly<Record<OperationId, readonly (readonly string[])[]>> = {
  PIN: [
    ['3', '8', ''],
    ['"100 mm"', '"250 mm"', '60'],
    ['6.5', '31', '3.25'],
    ['2', '26', ''],
    ['0.5', '9', ''],
    ['4', '10', '5'],
  ],
  HOLE: [
    ['2.5', '14'],
    ['0.5', '40'],
    ['"3/8"', '"20 mm"'],
    ['0.1', '6'],
  ],
  GOUGE: [
    ['1.25', '0.3', '60'],
    ['0.5', '2', '7.5'],
    ['3', '4', '120'],
    ['0', '1', '1'],
  ],
  CUT: [
    ['0.5', '12'],
    ['7.25', '40'],
    ['14', '3'],
    ['-1', '10'],
  ],
  STUD: [
    ['0.75', '12'],
    ['2.5', '3'],
    ['4', ''],
    ['1', '2.5'],
  ],
  BREACH: [
    ['36', '4', '6'],
    ['6', '1', '3'],
    ['120', '3', ''],
    ['24', '2.5', '0'],
  ],
};
/** Columns of first sizes with a blank row, a text, a negative number, one far too large and an error among them. */
const LIST = '{3;"";4.5;"abc";-1;2;1000000;#DIV/0!;3}';
const LISTS: Readonly<Record<OperationId, readonly string[]>> = {
  PIN: [LIST, '{8;"";12;10;10;7;10;10;8}', ''],
  HOLE: [LIST, '6'],
  GOUGE: [LIST, '0.5', '{24;"";36;24;24;12;24;24;24}'],
  CUT: [LIST, '{24,"12 in"}'],
  STUD: [LIST, '{1;"";4;1;1;2.5;1;1;2}'],
  BREACH: [LIST, '2.5', ''],
};

const OTHER_ASSUMPTIONS = [
  '"stub",4;"idle oxygen share",0.15;"burning duty",0.6;"slag temperature",2250;"product FeO share",0.7;"bore ratio",0.55',
  '"ends worked",2;"advance limit",9;"set-up time",20;"flow factor",0.9;"gas temperature",40;"air pressure",13',
  '"holder orifice",0.14;"hose length",150;"cylinder volume",50;"leftover pressure",400;"boss over pin",2.2',
  '"heat lost share",0.25;"reach loss",1.2;"lighting time",8;"pierce width",1.8;"item scatter",1.3;"oxygen burnt share",0.3',
  '"burning duty",0.65,0.5,0.8;"oxygen burnt share",0.28,0.22,0.35',
];
/** Ways and places whose workings are kept too. */
const WAYS = [
  '"coupled rods","yes";"string rods",3',
  '"rod flow measured",8;"pressure",75;"tip pressure",85',
  '"cooling method","water";"water depth",20',
  '"access","tight";"access length",20',
  '"position","vertical down"',
  '"position","underwater";"water depth",60;"water","fresh";"access","tight"',
  '"position","overhead";"access","tight";"regulator set","standing"',
  '"cut method","kerf"',
  '"cut method","row of holes"',
  '"cut method","kerf";"kerf technique","saw";"position","underwater"',
  '"breach material","stainless steel";"position","vertical down"',
];
const OTHER_WAYS = [
  '"coupled rods","yes"',
  '"cooling method","water"',
  '"access length",14',
  '"position","overhead"',
  '"position","underwater"',
  '"work grounded","yes"',
  '"kerf technique","drag"',
  '"kerf technique","saw"',
  '"breach material","carbon steel"',
  '"regulator set","standing"',
  '"supply flow",6',
  '"cylinders on manifold",4;"cylinder draw flow",4;"delivery pressure",120',
  '"hose length",1200;"hose bore",0.1875',
  '"plates per pin",0;"bar access length",90;"material","manganese steel"',
];
/** Operations that an assumption with such a name is about; all where none is named here. */
const ABOUT: Readonly<Record<string, OperationId>> = {
  cut: 'CUT',
  kerf: 'CUT',
  breach: 'BREACH',
  cooling: 'PIN',
  plates: 'PIN',
};
const about = (id: OperationId, assumes: readonly string[]): readonly string[] =>
  assumes.filter((assume) => (ABOUT[/^"(\w+)/.exec(assume)?.[1] ?? ''] ?? id) === id);

/** Sizes of plain numbers in millimetres. */
const inMillimetres = (id: OperationId): readonly string[] =>
  SIZES[id].map((size, i) => (size === '' || operationOf(id).order[i] === 'count' ? size : String(Number(size) * 25)));

function formulas(id: OperationId, results: readonly Result[], c: Case): readonly string[] {
  const args = [
    ...(c.sizes ?? SIZES[id]),
    c.rod ?? '',
    c.material ?? '',
    c.assume === undefined ? '' : `{${c.assume}}`,
  ];
  while (args.at(-1) === '') args.pop();
  return results.map((result) => `=BURN.${id}.${result}(${args.join(',')})`);
}

function ofOperation(id: OperationId): readonly string[] {
  const si = '"units","SI"';
  const sizes = WIDE[id] ?? SIZES[id];
  return [
    ...formulas(id, VALUES, { sizes, rod: column(rods), material: row(materials) }),
    ...formulas(id, VALUES, { material: row(materials) }),
    ...formulas(id, ['PLAN'], { sizes, rod: column([...new Set([...rods, ...everyLength])]) }),
    ...formulas(id, ['PLAN'], { material: column(materials) }),
    ...rods.flatMap((rod) => formulas(id, ['STEPS'], { sizes, rod })),
    ...materials.flatMap((material) => formulas(id, ['STEPS'], { material })),
    ...OTHER_SIZES[id].flatMap((other) => formulas(id, EVERY, { sizes: other })),
    ...formulas(id, EVERY, { sizes: inMillimetres(id), assume: si }),
    ...formulas(id, ['PLAN', 'STEPS'], {
      sizes: inMillimetres(id),
      rod: '"3/8 x 36"',
      material: '"cast iron"',
      assume: `${si};"idle oxygen share",0.15;"slag temperature",2250;"set-up time",20`,
    }),
    ...about(id, [...WAYS, ...OTHER_ASSUMPTIONS]).flatMap((assume) => formulas(id, ['PLAN', 'STEPS'], { assume })),
    ...about(id, OTHER_WAYS).flatMap((assume) => formulas(id, ['PLAN'], { assume })),
    ...[...WAYS.slice(0, 2), '"coupled rods","yes"'].flatMap((assume) =>
      formulas(id, VALUES, { sizes, assume, rod: '"1/2 pipe x 120"' }),
    ),
    ...WAYS.slice(3, 7).flatMap((assume) => formulas(id, ['PLAN'], { assume, rod: '"3/8 insulated x 36"' })),
    ...formulas(id, EVERY.slice(0, -1), { sizes: LISTS[id] }),
    ...formulas(id, ['RODS', 'PLAN', 'STEPS'], { rod: '"5/8 x 36"' }),
    ...formulas(id, ['OXYGEN', 'PLAN', 'STEPS'], { material: '"wood"' }),
    ...formulas(id, ['TIME', 'PLAN', 'STEPS'], { assume: '"stubb",3' }),
    ...formulas(id, ['PRESSURE'], { assume: '"stub",-3' }),
  ];
}

const MIXED =
  '{"Mark","Qty","Op","Dia","Length","Thk","access","colour";"Boom foot, left",2,"",4,10,"","tight","red";"","","","","","","","";"Lock pin","4 off","PIN",1.5,6,"","","";"Rib","","CUT","",24,1,"","";"Stick","","",3.5,"","","",""}';
const SI_LIST =
  '{"Tag","Ø, mm","L, mm","no. off","material";"A",100,250,1,"";"B",90,200,3,"stainless steel";"C",120,400,1,""}';
const PRICES =
  '{"rod",9,"";"rod 1/2 pipe x 120",31,"";"oxygen",38,"100 scf";"cylinder rental",6,"";"crew",180,"h";"plate",12,"";"ram hire",75,"";"mobilisation",400,"";"other permits",120,"";"contingency",0.1,"";"margin",20,""}';
const LOG =
  '{"diameter","length","rods used","oxygen used","burning minutes","crew minutes";4,10,7,140,9,62;3.5,12,6,128,8,58;5,16,16,330,18,85;4,11,6,"",7,72;3,9,4,76,5,""}';
const LIST_OF: Readonly<Record<OperationId, string>> = {
  PIN: '{4,10;3,8;5.5,14;4,10}',
  HOLE: '{1,6;1.5,4;2,12}',
  GOUGE: '{0.75,0.5,24;1,0.25,36}',
  CUT: '{2,24;3,12}',
  STUD: '{1.5,4;1,1}',
  BREACH: '{24,2.5,4;36,3,1}',
};
const HEADINGS: Readonly<Record<OperationId, string>> = {
  PIN: '"diameter","length"',
  HOLE: '"operation","hole","depth"',
  GOUGE: '"operation","width","depth","length"',
  CUT: '"operation","thickness","length"',
  STUD: '"operation","diameter","count"',
  BREACH: '"operation","thickness","hole","count"',
};
/** The same with a heading row, as a job list. */
const JOB_LIST = Object.fromEntries(
  OPERATION_IDS.map((id) => {
    const rows = LIST_OF[id].slice(1, -1).split(';');
    return [id, `{${[HEADINGS[id], ...rows.map((r) => (id === 'PIN' ? r : `"${id}",${r}`))].join(';')}}`];
  }),
) as Readonly<Record<OperationId, string>>;
const ASSUME_LIST = '{"stub",4;"burning duty",0.6;"heat lost share",0.25;"hose length",150}';

const oneItem = (id: OperationId): string => row(SIZES[id].filter((size) => size !== ''));

const jobs = OPERATION_IDS.flatMap((id) => [
  ...['rods', 'oxygen', 'burn', 'time', 'cylinders'].flatMap((what) =>
    [10, 50, 90].map((share) => `=BURN.SPREAD("${id}",${LIST_OF[id]},"${what}",${share})`),
  ),
  `=BURN.SPREAD("${id}",${LIST_OF[id]},"oxygen",80,${ASSUME_LIST})`,
  `=BURN.SPREAD("${id}",${LIST_OF[id]},"time",95,{"position","underwater"})`,
  `=BURN.SPREAD("${id}",${row(inMillimetres(id).filter((size) => size !== ''))},"oxygen",90,{"units","SI"})`,
  `=BURN.JOB.PLAN(${JOB_LIST[id]})`,
  `=BURN.JOB.PLAN(${JOB_LIST[id]},{"units","SI";"position","overhead"})`,
  `=BURN.JOB.STOCK(${JOB_LIST[id]},90)`,
  `=BURN.JOB.STOCK(${JOB_LIST[id]},50,{"coupled rods","yes";"cylinder volume",50})`,
  `=BURN.ASSUME.EFFECT("${id}",${oneItem(id)})`,
  `=BURN.JOB.COST(${JOB_LIST[id]},${PRICES})`,
  `=BURN.JOB.SCHEDULE(${JOB_LIST[id]},2,8)`,
  `=BURN.JOB.SHEET(${JOB_LIST[id]})`,
  `=BURN.CAUTIONS("${id}")`,
  `=BURN.PPE.LIST("${id}")`,
  `=BURN.ROD.PICK("${id}",${SIZES[id].join(',')})`.replace(/,+\)/, ')'),
]);

const others: readonly string[] = [
  `=BURN.JOB.PLAN(${MIXED})`,
  `=BURN.JOB.PLAN({100,250;90,200},{"units","SI";"cooling method","water"})`,
  `=BURN.JOB.PLAN({"mark","len";"a",3})`,
  `=BURN.JOB.STOCK(${MIXED})`,
  `=BURN.JOB.COST(${MIXED},${PRICES},80,2)`,
  `=BURN.JOB.COST(${SI_LIST},{"oxygen",14,"m3";"crew",2.8,"min";"cylinder",55,"";"currency","EUR","";"tax",19,""},,,{"units","SI"})`,
  `=BURN.JOB.COST(${MIXED},{"rod",-9;"gold",3})`,
  `=BURN.JOB.SCHEDULE(${MIXED},1,10)`,
  `=BURN.JOB.SCHEDULE(${SI_LIST},3,,"2026-11-30 19:30",{"units","SI";"break length",45})`,
  `=BURN.JOB.SCHEDULE(${SI_LIST},1,4,"noon")`,
  `=BURN.JOB.COMPARE(${MIXED},{"stub",3},{"stub",4;"position","overhead"},${PRICES})`,
  `=BURN.JOB.COMPARE(${SI_LIST},{"units","SI"},{"units","SI";"cooling method","water"})`,
  `=BURN.JOB.SHEET(${MIXED},{"confined";"height 30 ft"},"Boom foot pins")`,
  `=BURN.JOB.SHEET(${SI_LIST},,,{"units","SI";"crews",2;"load confidence",75})`,
  `=BURN.JOB.JOINT(${MIXED},${PRICES},9000,30,2)`,
  `=BURN.JOB.JOINT(${SI_LIST},${PRICES},4000,12,,{"units","SI"})`,
  `=BURN.ASSUME.WORTH(${MIXED},${PRICES})`,
  `=BURN.ASSUME.WORTH(${SI_LIST},${PRICES},{"units","SI";"load confidence",75})`,
  `=BURN.LOG.FIT(${LOG})`,
  `=BURN.LOG.FIT(${LOG},${ASSUME_LIST})`,
  `=BURN.LOG.SCORE(${LOG})`,
  `=BURN.SPREAD("PIN",{4,10;"abc",8},"oxygen",90)`,
  `=BURN.JOB.STOCK({"dia","length","rod","material";4,10,"1/2 pipe x 120","cast iron";3,8,"","copper alloy"},90)`,
  `=BURN.SPREAD("HOLE",{1,6},"oxygen",101)`,
  `=BURN.CAUTIONS("CUT",{"confined";"underwater"})`,
  `=BURN.PIN.HOLE({1;2;3;4;6;8},{"bore ratio",0.5})`,
  `=BURN.PIN.HOLE({25;100;"4 in"},{"units","SI"})`,
  `=BURN.ROD.FLOW(${column(rods)},{40,80,120})`,
  `=BURN.ROD.FLOW({"3/8 x 36";"1/4"},{3;6},12,{"units","SI";"rod flow measured",200})`,
  `=BURN.ROD.FLOW("3/8",80,,{"holder orifice",0.14;"gas temperature",40;"flow factor",0.9})`,
  `=BURN.ROD.PRESSURE(${column(rods)},{3,8,15})`,
  `=BURN.ROD.LIST({"units","SI"})`,
  `=BURN.ROD.LIST({"pressure",100;"flow factor",0.8})`,
  `=BURN.ROD.PICK("PIN",4,10,,18,{"coupled rods","yes"})`,
  `=BURN.ROD.PICK("PIN",100,250,,,{"units","SI";"material","copper alloy"})`,
  `=BURN.ROD.CUTLIST({4;6;9;12;12;20;31},{"3/8 x 36";"3/8 x 48"},{"coupled rods","yes"})`,
  `=BURN.CYLINDER.CONTENT({"10 L";"20 L";"43 L";"49 L";"50 L";"6 x 49 L pack";"12 x 50 L pack";"16 x 50 L pack"},{500,1500,2200,2600})`,
  `=BURN.CYLINDER.CONTENT({20;43;50},{"100 bar";"2000 psi";"200 bar"},{"-10 C","70 F","40 C"},{0})`,
  `=BURN.CYLINDER.CONTENT(50,200,15,10,{"units","SI"})`,
  `=BURN.CYLINDER.CONTENT({"7 x 50 L pack";-1;""},2200)`,
  `=BURN.CYLINDER.COUNT({0;1;243;1000;5000},{200,244})`,
  `=BURN.CYLINDER.COUNT({5;100},,{"units","SI";"cylinder volume",50;"cylinder draw flow",20})`,
  `=BURN.CYLINDER.GAUGE({500;1000;2200;2400},{-20,32,70,"38 C","50 C"})`,
  `=BURN.CYLINDER.LIMITS(1,244,8000)`,
  `=BURN.CYLINDER.LIMITS(40,7,200,{"units","SI"})`,
  `=BURN.CYLINDER.SEPARATION({3;12;20;25},{0;6;"1.5 m";5},{0;30;30;60})`,
  `=BURN.HOSE.LOSS({3;8;15;25;40},90,{50,200},{"1/4";"5/16";"3/8";"1/2";"3/4"})`,
  `=BURN.HOSE.LOSS(20,90,50,"3/8",{"hose fittings",4;"hose roughness",0.0004;"gas temperature",40})`,
  `=BURN.HOSE.LOSS(0.5,6,15,10,{"units","SI"})`,
  `=BURN.HOSE.SETTING({40;70;90;120},{4,8,15,25},100,"3/8",{0;20;60;100})`,
  `=BURN.HOSE.SETTING(90,60,2000,"3/16")`,
  `=BURN.HOSE.SETTING(6,0.4,30,10,18,{"units","SI";"water","fresh"})`,
  ...[
    '"3/16 x 36"',
    '"1/4 x 24"',
    '"3/8 x 48"',
    '"1/4 insulated x 36"',
    '"1/4 pipe x 60"',
    '"1/2 pipe x 120"',
    '"3/4 pipe x 120"',
  ].map((rod) => `=BURN.SUPPLY.CHECK(${rod},90,50,"3/8",1)`),
  `=BURN.SUPPLY.CHECK("3/8 x 36",110,300,"1/2",4,,30)`,
  `=BURN.SUPPLY.CHECK("3/8 x 36",90,50,"3/8",2,200,,{"regulator set","standing"})`,
  `=BURN.SUPPLY.CHECK("3/8 x 36",6,15,10,2,7,10,{"units","SI"})`,
  `=BURN.COOL.TIME({2;4;8},{1.5;2.5;5},{6;10;20},{"air","water"})`,
  `=BURN.COOL.TIME(100,60,250,"air",{60,120,200},{"units","SI"})`,
  `=BURN.COOL.TIME(4,2.5,10,,,{"ambient temperature",95;"boss over pin",3.5;"heat into the part",1.2;"surface emissivity",0.9})`,
  `=BURN.COOL.TIME(4,2.5,10,"water",,{"cooling water temperature",45;"wet boss share",0.6;"boiling surface factor",0.01})`,
  `=BURN.COOL.CURVE(4,2.5,10,10,"water",9)`,
  `=BURN.COOL.CURVE(90,50,200,250,"air",7,{"units","SI"})`,
  `=BURN.COOL.SHRINK({2;4;8},{1.5;2.5;5},{"air","water"})`,
  `=BURN.COOL.SHRINK(100,60,"water",{"units","SI";"boss over pin",3})`,
  `=BURN.GRIP.PRESSURE({2;4;8},{0.0005,0.001,0.004},{5;6;16},{0;2.5;5})`,
  `=BURN.GRIP.FORCE({2;4;8},{6;10;20},{0.0005,0.001,0.004},{5;10;16},{0;2.5;5})`,
  `=BURN.GRIP.FORCE(100,250,0.03,200,60,{"units","SI";"joint friction",0.2;"rust bond",4})`,
  `=BURN.GRIP.AFTER(4,10,10,2.5,60,{"pin over boss when pushed",20;"bond left after burning",0.6})`,
  `=BURN.GRIP.AFTER(100,250,250,60,250,{"units","SI"})`,
  `=BURN.GRIP.AFTER(6,14,14,3.5,120)`,
  `=BURN.PUSH.RAM({1;12;30;90;250;900})`,
  `=BURN.PUSH.RAM({100;500},{"units","SI";"ram use",0.7})`,
  `=BURN.PUSH.SPACERS({4;10;16},{2,6,13})`,
  `=BURN.PUSH.CHECK({30},4,2.5,10,3)`,
  `=BURN.PUSH.CHECK(300,100,60,250,,{"units","SI";"spacer yield strength",350})`,
  `=BURN.GUARD.PLATES({6},{14},{"shield plate over pin",3;"weld metal strength",60})`,
  `=BURN.GUARD.PLATES(100,250,{"units","SI"})`,
  `=BURN.NOISE.HOURS({70;85;90;92;100;115},{"OSHA","NIOSH","EU"})`,
  `=BURN.NOISE.DOSE({92;100;85;78},{4;0.5;3;1},{"OSHA","NIOSH","EU"},{"protector reduction",20})`,
  `=BURN.NOISE.SHIFT({92;104},{4;1.5},"OSHA")`,
  `=BURN.NOISE.SHIFT({92;104},{4;1.5},"NIOSH")`,
  `=BURN.AIR.RELEASE({4;8;15},{"3/8","1/4","1/2 pipe"})`,
  `=BURN.AIR.OXYGEN({500;4000;60000},{2,6},{0;150;2000},{10;30;60})`,
  `=BURN.AIR.OXYGEN(110,0.2,4,30,20.9,{"units","SI";"air mixing factor",3})`,
  `=BURN.AIR.RISE({500;4000},{2,6},{0;100},21,{22;23.5})`,
  `=BURN.AIR.CLEAR({500;4000},{100,500},{24;26},{22;23.5})`,
  `=BURN.AIR.FRESH({2;6;12},{22,23.5},{"fresh air oxygen",20.5;"air mixing factor",2})`,
  `=BURN.AIR.PEOPLE({4000;60000},{10;30},{1,2,5},"no")`,
  `=BURN.AIR.FUME("1/4 x 24",10,2000,0)`,
  `=BURN.AIR.FUME("3/8",20,100,4,{"units","SI";"material","manganese steel"})`,
  `=BURN.FIRE.WATCH({"NFPA 51B 2019";"NFPA 51B 2014";"NFPA 51B 2009";"OSHA";"no rule"})`,
  `=BURN.FIRE.REACH({3;10;30;100},{"wind",8;"throw speed",12;"drop diameter",2})`,
  `=BURN.FIRE.REACH({1;10;40},{"units","SI"})`,
  `=BURN.FIRE.CHECK(12,{"diesel tank",20;"hay barn",60;"timber stack","15 m"},{"wind",5})`,
  `=BURN.EYE.SHADE({0.5;1;3;6;12})`,
  `=BURN.LEAD.DROP({100;150;250},{50,100,300},{"2";"2/0";"4/0"},{"lead temperature",140})`,
  `=BURN.BATTERY.STRIKES({12;70;100;200},{50,100,150},3)`,
  `=BURN.BATTERY.STRIKES(100,,,{"battery usable share",30;"peukert exponent",1.4})`,
  `=BURN.ASSUME.EFFECT("PIN",{4,10;3,8})`,
  `=BURN.ASSUME.DIFF({"stub",4;"bore ratio",0.5;"material","rock";"burning duty",0.65})`,
];

/** Every call, each once. */
export const CALLS: readonly string[] = [
  ...new Set([...CATALOGUE.flatMap((d) => d.examples), ...OPERATION_IDS.flatMap(ofOperation), ...jobs, ...others]),
];
