/**
 * The address that a mail gives, `https://yard.example/password#…`. The secret stands in the
 * fragment, which browsers keep to themselves (RFC 9110, 4.2.5): it gets into no log and no Referer.
 */
export function linkTo(publicUrl: URL, page: 'password' | 'invitation', token: string): string {
  const link = new URL(page, publicUrl);
  link.hash = token;
  return link.href;
}
