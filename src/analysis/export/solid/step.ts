/** Solid file after ISO 10303-21, application protocol 214: the folded tub as an assembly of its parts. */
import type { FoldedPart } from '../../fold/flat-pattern.js';
import { exportMark } from '../../../files/own-mark.js';
import { boundPart } from '../../solid/boundary/build-solid.js';
import { createEntities, list, placement, text, type EntityList, type Ref } from './step-entities.js';
import { writeSolid } from './step-shell.js';

/**
 * Text of the file: lengths in mm, angles in rad, one closed solid per part, each in its place in the tub's frame.
 * Planes, cylinders, lines and circles are exact; the helix where a bend zone ends askew or curved is within 1e-10 of its radius.
 * Same parts, same bytes: the time stamp is a fixed one.
 */
export const writeStep = (tubName: string, parts: readonly FoldedPart[]): string => {
  const out = createEntities();
  const shared = writeShared(out);
  const root = writeProduct(out, shared, tubName, (origin) =>
    out.add(`SHAPE_REPRESENTATION(${text(tubName)},(${origin}),${shared.context})`),
  );
  parts.forEach((part, i) => {
    const child = writeProduct(out, shared, part.name, (origin) =>
      out.add(
        `ADVANCED_BREP_SHAPE_REPRESENTATION(${text(part.name)},${list([origin, writeSolid(out, boundPart(part))])},${shared.context})`,
      ),
    );
    writeUse(out, root, child, part.name, i + 1);
  });
  return [
    'ISO-10303-21;',
    'HEADER;',
    `FILE_DESCRIPTION((${text(`folded parts of ${tubName}`)},${text(exportMark(tubName))}),'2;1');`,
    `FILE_NAME(${text(`${tubName}.step`)},'2000-01-01T00:00:00',(''),(''),'Tubwright','Tubwright','');`,
    "FILE_SCHEMA(('AUTOMOTIVE_DESIGN { 1 0 10303 214 1 1 1 1 }'));",
    'ENDSEC;',
    'DATA;',
    ...out.lines,
    'ENDSEC;',
    'END-ISO-10303-21;',
    '',
  ].join('\n');
};

interface Shared {
  readonly productContext: Ref;
  readonly definitionContext: Ref;
  readonly context: Ref;
}

const writeShared = (out: EntityList): Shared => {
  const application = out.add("APPLICATION_CONTEXT('core data for automotive mechanical design processes')");
  out.add(`APPLICATION_PROTOCOL_DEFINITION('international standard','automotive_design',2000,${application})`);
  const length = out.add('(LENGTH_UNIT()NAMED_UNIT(*)SI_UNIT(.MILLI.,.METRE.))');
  const angle = out.add('(NAMED_UNIT(*)PLANE_ANGLE_UNIT()SI_UNIT($,.RADIAN.))');
  const solidAngle = out.add('(NAMED_UNIT(*)SI_UNIT($,.STERADIAN.)SOLID_ANGLE_UNIT())');
  const accuracy = out.add(
    `UNCERTAINTY_MEASURE_WITH_UNIT(LENGTH_MEASURE(1.E-6),${length},'distance_accuracy_value','largest gap')`,
  );
  return {
    productContext: out.add(`PRODUCT_CONTEXT('',${application},'mechanical')`),
    definitionContext: out.add(`PRODUCT_DEFINITION_CONTEXT('part definition',${application},'design')`),
    context: out.add(
      `(GEOMETRIC_REPRESENTATION_CONTEXT(3)GLOBAL_UNCERTAINTY_ASSIGNED_CONTEXT((${accuracy}))GLOBAL_UNIT_ASSIGNED_CONTEXT(${list([length, angle, solidAngle])})REPRESENTATION_CONTEXT('tub','3D'))`,
    ),
  };
};

interface Product {
  readonly definition: Ref;
  readonly representation: Ref;
  readonly origin: Ref;
}

const writeProduct = (out: EntityList, shared: Shared, name: string, represent: (origin: Ref) => Ref): Product => {
  const product = out.add(`PRODUCT(${text(name)},${text(name)},'',(${shared.productContext}))`);
  out.add(`PRODUCT_RELATED_PRODUCT_CATEGORY('part',$,(${product}))`);
  const formation = out.add(`PRODUCT_DEFINITION_FORMATION('','',${product})`);
  const definition = out.add(`PRODUCT_DEFINITION('design','',${formation},${shared.definitionContext})`);
  const shape = out.add(`PRODUCT_DEFINITION_SHAPE('','',${definition})`);
  const origin = placement(out, [0, 0, 0], [0, 0, 1], [1, 0, 0]);
  const representation = represent(origin);
  out.add(`SHAPE_DEFINITION_REPRESENTATION(${shape},${representation})`);
  return { definition, representation, origin };
};

const writeUse = (out: EntityList, root: Product, part: Product, name: string, count: number): void => {
  const use = out.add(
    `NEXT_ASSEMBLY_USAGE_OCCURRENCE('${count}',${text(name)},'',${root.definition},${part.definition},$)`,
  );
  const shape = out.add(`PRODUCT_DEFINITION_SHAPE('','',${use})`);
  const move = out.add(`ITEM_DEFINED_TRANSFORMATION('','',${part.origin},${root.origin})`);
  const relation = out.add(
    `(REPRESENTATION_RELATIONSHIP('','',${part.representation},${root.representation})REPRESENTATION_RELATIONSHIP_WITH_TRANSFORMATION(${move})SHAPE_REPRESENTATION_RELATIONSHIP())`,
  );
  out.add(`CONTEXT_DEPENDENT_SHAPE_REPRESENTATION(${relation},${shape})`);
};
