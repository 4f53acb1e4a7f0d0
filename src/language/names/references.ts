import {
  DefaultReferences,
  type AstNode,
  type FindReferencesOptions,
  type ReferenceDescription,
  type Stream,
} from 'langium';
import { writtenOf } from '../made-groups.js';

/** What refers to a thing that is made is found with what refers to the one that it was made of. */
export class TubReferences extends DefaultReferences {
  override findReferences(target: AstNode, options: FindReferencesOptions): Stream<ReferenceDescription> {
    return super.findReferences(writtenOf(target), options);
  }
}
