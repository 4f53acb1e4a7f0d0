/** Forms of statements, offered where their word begins one. `inside`: between the braces of a strip, its legs, or of a shop. */
export interface Snippet {
  readonly word: string;
  readonly label: string;
  readonly body: string;
  readonly inside?: 'strip' | 'shop';
}

const HEADINGS = '${3|front,back,left,right|}';

export const snippets: readonly Snippet[] = [
  {
    word: 'tub',
    label: 'tub … of a strip and two sides',
    body: 'units mm\ntub "${1:Name}"\n\nlet inside = ${2:400}\nlet rim    = ${3:200}\n\nsheet skin = ${4|stainless,galvanized,steel,aluminium|} ${5:18} ga  radius ${6:1.2}\nlevel within 0.5 deg\n\nstrip floor of skin from (0, ${7:300}, rim) heading front across right inside {\n    panel back   ${8:60}   falling 90 deg\n    panel shelf  ${9:250}  falling ${10:3} deg\n    panel front  to z rim  rising 80 deg\n}\nside leftCheek  of skin closes floor.left  up to rim\nside rightCheek of skin closes floor.right up to rim\nseam leftCheek floor  { weld tig }\nseam rightCheek floor { weld tig }\n\noutlet drain in ${11:shelf} at center(${11:shelf}) diameter ${12:50} { lip 15 }\n$0',
  },
  {
    word: 'units',
    label: 'units … of bare numbers',
    body: 'units ${1|mm,in|}',
  },
  {
    word: 'use',
    label: 'use … another file',
    body: 'use "${1:shop.tub}"',
  },
  {
    word: 'level',
    label: 'level … of the stand',
    body: 'level within ${1:0.5} deg',
  },
  {
    word: 'stands',
    label: 'stands … leaning',
    body: 'stands tilted ${1:1} deg down ${2|right,left,back,front|}',
  },
  {
    word: 'bend',
    label: 'bend … of two panels',
    body: 'bend ${1:apron} ${2:back}',
  },
  {
    word: 'mirror',
    label: 'mirror … a group',
    body: 'mirror ${1:leftHalf} as ${2:rightHalf} across ${3|x,y|} ${4:230}',
  },
  {
    word: 'repeat',
    label: 'repeat … a group',
    body: 'repeat ${1:leg} ${2:4} times by (${3:0}, ${4:120}, ${5:0})',
  },
  {
    word: 'cutout',
    label: 'cutout … between two corners',
    body: 'cutout ${1:window} in ${2:front} from (${3:0}, ${4:0}, ${5:0}) to (${6:100}, ${7:0}, ${8:50})',
  },
  {
    word: 'slot',
    label: 'slot … to adjust by',
    body: 'slot in ${1:back} at toward(${2:A}, ${3:B}, ${4:60}) ${5:20} by ${6:6.6} ${7|upright,level|}',
  },
  {
    word: 'liquid',
    label: 'liquid … by name',
    body: 'liquid ${1|water,coolant,oil,brine|}',
  },
  {
    word: 'shop',
    label: 'shop … with its machines',
    body: 'shop "${1:home shop}" {\n    press brake ${2:finger} { force ${3:25} ton  bed ${4:800}  die ${5:12 16 25 40}  punch radius ${6:1}  nose ${7:30} deg }\n    cutter ${8:plasma} { bed ${9:1250} by ${10:1250}  kerf ${11:1.5}  smallest hole ${12:3} }\n    bends within ${13:0.5} deg   marks within ${14:0.3}   clamp at most ${15:50} N\n    stock ${16|stainless,galvanized,steel,aluminium|} ${17:18} ga ${18:1220} by ${19:2440}\n}',
  },
  {
    word: 'rates',
    label: 'rates … of time and cost',
    body: 'rates { cut ${1:2} m/min  pierce ${2:1} sec  stroke ${3:45} sec  spots ${4:4} sec  weld ${5:100} mm/min  sealant ${6:500} mm/min  work ${7:60}  metal ${8:4.5} }',
    inside: 'shop',
  },
  {
    word: 'made',
    label: 'made … how its bends came out',
    body: 'made ${1:floor} standing on ${2:shelf} {\n    bend ${3:back} ${2:shelf} reads ${4:86.5} deg\n    may correct\n}',
  },
  {
    word: 'taped',
    label: 'taped … between points that are there',
    body: 'taped {\n    ${1:512} from ${2:A} to ${3:C}\n    ${4:640} from ${5:B} to ${3:C}\n    level ${2:A} to ${3:C}\n    within ${6:0.5}\n}',
  },
  {
    word: 'pin',
    label: 'pin … a piece on the nest',
    body: 'pin ${1:floor} on ${2:1220} by ${3:2440} at (${4:20}, ${5:20}) turned ${6:0} deg',
  },
  {
    word: 'marks',
    label: 'marks … on one side of the sheet',
    body: 'marks on ${1|wet,dry|} side of ${2:floor}',
  },
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
    label: 'existing … of another file',
    body: 'existing ${1:machine} from "${2:machine.stl}" at (${3:0}, ${4:0}, ${5:0}) turned ${6:90} deg about ${7|z,x,y|}',
  },
  {
    word: 'existing',
    label: 'existing … of a drawing',
    body: 'existing ${1:post} from "${2:post.dxf}" layer "${3:OUTLINE}" by ${4:90} at (${5:0}, ${6:0}, ${7:0})',
  },
  {
    word: 'existing',
    label: 'existing … that stands there already',
    body: 'existing ${1:cabinet} {\n    panel ${2:deck} of ${3:plate} metal ${4|up,down,left,right,front,back|} = ${5:A} ${6:B} ${7:C} ${8:D}\n}',
  },
  { word: 'support', label: 'support … that stays dry', body: 'support ${1:stand} {\n    $0\n}' },
  { word: 'clear', label: 'clear … of two things', body: 'clear ${1:frame} ${2:tub} at least ${3:2}' },
  {
    word: 'removable',
    label: 'removable … in its seat',
    body: 'removable ${1:frame} in ${2:sump} play ${3:0.5} {\n    $0\n}',
  },
  { word: 'removable', label: 'removable … that comes out', body: 'removable ${1:tray} {\n    $0\n}' },
  { word: 'part', label: 'part … of the tub with names of its own', body: 'part ${1:lid} {\n    $0\n}' },
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
    word: 'seam',
    label: 'seam … lapped and riveted',
    body: 'seam ${1:leftCheek} ${2:floor} { lap ${3:16}  rivets ${4:3.2} every ${5:20}  sealant ${6:3} }',
  },
  {
    word: 'seam',
    label: 'seam … lapped and bolted',
    body: 'seam ${1:leftCheek} ${2:floor} { lap ${3:24}  bolted ${4:M6} every ${5:60}  sealant ${6:3} }',
  },
  {
    word: 'seam',
    label: 'seam … of faces, with a gasket',
    body: 'seam ${1:rail} ${2:stall.deck} { bolted ${3:M6} every ${4:60} heads on ${2:stall.deck} rivetnut in ${1:rail}  gasket ${5:3} pressed ${6:30} % }',
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
  {
    word: 'week',
    label: 'week … of work',
    body: 'week {\n    run ${1:6} hours for ${2:5} days\n    cleaned every ${3:5} days\n    topped up every ${4:2} days\n    splash ${5:0.5} L/h  evaporates ${6:0.2} L/h\n}',
  },
  {
    word: 'inflow',
    label: 'inflow … pumped through a hose',
    body: 'inflow ${1:spray} pumped from ${2:catch} at (${3:300}, ${4:200}, ${5:-280}) on ${6:shelf} at center(${6:shelf}) {\n    curve 0 L/min at ${7:3.2} m  ${8:20} L/min at ${9:1.4} m\n    hose bore ${10:12} long ${11:1.8} m bends ${12:3}\n    covered ${13:25}\n}',
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
