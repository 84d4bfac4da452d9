interface SystemNeed {
  readonly check: string;
  readonly debianPackage: string;
  readonly files: readonly string[];
}
export declare const systemNeeds: readonly SystemNeed[];
export declare function systemNeed(debianPackage: string): SystemNeed & { readonly isMet: boolean };
