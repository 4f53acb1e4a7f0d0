/** Values by name; beyond so many, the one that was not used for longest is forgotten. */
export class LruCache<T> {
  /** In order of last use. */
  private readonly values = new Map<string, T>();

  constructor(private readonly most: number) {}

  get(name: string): T | undefined {
    const value = this.values.get(name);
    if (value !== undefined) this.set(name, value);
    return value;
  }

  set(name: string, value: T): void {
    this.values.delete(name);
    this.values.set(name, value);
    if (this.values.size > this.most) this.values.delete(this.values.keys().next().value!);
  }
}
