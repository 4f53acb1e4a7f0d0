/** Forms of statements, offered where one may start. `inside: 'strip'`: a leg, between the braces of a strip. */
export interface Snippet {
  readonly word: string;
  readonly label: string;
  readonly body: string;
  readonly inside?: 'strip';
}

const HEADINGS = '${3|front,back,left,right|}';

export const snippets: readonly Snippet[] = [
  {
    word: 'sheet',
    label: 'sheet … by gauge',
    body: 'sheet ${1:skin} = ${2|stainless,galvanized,steel,aluminium,copper,brass|} ${3:18} ga  radius ${4:1.2 mm}',
  },
  {
    word: 'sheet',
    label: 'sheet … with a test bend',
    body: 'sheet ${1:skin} = ${2|stainless,galvanized,steel,aluminium,copper,brass|} ${3:18} ga  radius ${4:1.2 mm}  coupon { flat ${5:100 mm}  legs ${6:51.4 mm} ${7:51.4 mm}  at ${8:90 deg} }',
  },
  {
    word: 'strip',
    label: 'strip … with legs',
    body: `strip \${1:floor} of \${2:skin} from (\${4:0}, \${5:400}, \${6:200}) heading ${HEADINGS} across \${7|right,left,back,front|} \${8:300} {\n    panel \${9:back} \${10:60} falling \${11:90 deg}\n    panel \${12:base} \${13:300} falling \${14:3 deg}\n}`,
  },
  {
    word: 'panel',
    label: 'panel … of a strip',
    body: 'panel ${1:chute} ${2:100} ${3|falling,rising|} ${4:3 deg}',
    inside: 'strip',
  },
  {
    word: 'panel',
    label: 'panel … up to a level',
    body: 'panel ${1:front} to z ${2:rim} rising ${3:80 deg}',
    inside: 'strip',
  },
  { word: 'panel', label: 'panel … by points', body: 'panel ${1:apron} of ${2:skin} = ${3:A B C D}' },
  {
    word: 'side',
    label: 'side … of a strip',
    body: 'side ${1:leftCheek} of ${2:skin} closes ${3:floor}.${4|left,right|} up to ${5:rim}',
  },
  {
    word: 'side',
    label: 'side … that divides a strip',
    body: 'side ${1:baffle} of ${2:skin} crosses ${3:floor} at ${4:200} from ${5|left,right|} up to ${6:180}',
  },
  {
    word: 'panel',
    label: 'panel … upright across a leg',
    body: 'panel ${1:weir} of ${2:skin} stands on ${3:floor.base} at ${4:200} up to ${5:180}',
  },
  {
    word: 'existing',
    label: 'existing … that stands there already',
    body: 'existing ${1:cabinet} {\n    panel ${2:deck} of ${3:plate} metal ${4|up,down,left,right,front,back|} = ${5:A} ${6:B} ${7:C} ${8:D}\n}',
  },
  { word: 'support', label: 'support … that stays dry', body: 'support ${1:stand} {\n    $0\n}' },
  { word: 'removable', label: 'removable … that comes out', body: 'removable ${1:tray} {\n    $0\n}' },
  { word: 'point', label: 'point … in space', body: 'point ${1:A} = (${2:0}, ${3:0}, ${4:0})' },
  {
    word: 'flange',
    label: 'flange … on an edge',
    body: 'flange ${1:drip} on ${2:apron}${3:.end} turned ${4|up,down,in,out|} ${5:90 deg} by ${6:20}',
  },
  {
    word: 'flange',
    label: 'flange … to a level',
    body: 'flange ${1:rail} on ${2:floor}${3:.right} turned ${4|up,out|} ${5|plumb,level|} to z ${6:200} mitred',
  },
  { word: 'rim', label: 'rim … with a hem', body: 'rim ${1:drip.end} hem closed ${2:8}' },
  {
    word: 'seam',
    label: 'seam … welded',
    body: 'seam ${1:leftCheek} ${2:floor} { weld ${3|tig,mig|}  gap at most ${4:0.5} }',
  },
  {
    word: 'seam',
    label: 'seam … with loose clips',
    body: 'seam ${1:leftCheek} ${2:floor} { tabs loose ${3:18} wide ${4:14} deep every ${5:70} inset ${6:0.8}  spots ${7:1}  sealant ${8:3} }',
  },
  {
    word: 'outlet',
    label: 'outlet … with a strainer',
    body: 'outlet ${1:drain} in ${2:sump} at center(${2:sump}) diameter ${3:50} { lip ${4:15}  strainer mesh ${5:80} size ${6:120} by ${7:80} blocked ${8:50} % }',
  },
  {
    word: 'hole',
    label: 'hole … in a row',
    body: 'hole in ${1:apron} from ${2:toward(A, B, 20)} to ${3:toward(B, A, 20)} count ${4:4} ${5|rivetnut,screw|} ${6:M6} sealed',
  },
  { word: 'inflow', label: 'inflow … on a panel', body: 'inflow ${1:20 L/min} on ${2:shelf}' },
  { word: 'path', label: 'path … to the outlet', body: 'path ${1:shelf} ${2:chute} ${3:drain} at least ${4:2 deg}' },
  {
    word: 'tank',
    label: 'tank … under an outlet',
    body: 'tank ${1:catch} ${2:60 L} working ${3:40 L} under ${4:drain}',
  },
  {
    word: 'dry',
    label: 'dry … box',
    body: 'dry ${1:pump} from (${2:0}, ${3:0}, ${4:0}) to (${5:100}, ${6:100}, ${7:100})',
  },
  {
    word: 'keepout',
    label: 'keepout … box',
    body: 'keepout ${1:stand} from (${2:0}, ${3:0}, ${4:0}) to (${5:100}, ${6:100}, ${7:100})',
  },
  { word: 'let', label: 'let … free', body: 'let ${1:rim} = ${2:250} free ${3:120} to ${4:300} by ${5:5}' },
  {
    word: 'variant',
    label: 'variant … with other values',
    body: 'variant "${1:wide}" { let ${2:inside} = ${3:600} }',
  },
  {
    word: 'aim',
    label: 'aim … of free values',
    body: 'aim {\n    ${1|least,most|} ${2:let rim}\n    capacity at least ${3:20 L}\n    no warnings\n}',
  },
  { word: 'accept', label: 'accept … a finding', body: 'accept ${1:drain/pool} on ${2:shelf} because "${3:reason}"' },
];
