/**
 * The table of contents of a SCORM 1.2 package. Names of elements, schemas and types are those of the open standard (ADL
 * SCORM 1.2, content aggregation model, after IMS content packaging 1.1.2).
 */

export interface PackageContents {
  /** A word that is a valid XML name; tells this package from others. */
  id: string;
  title: string;
  /** What the platform opens; one of `files`. */
  start: string;
  /** Paths in the package, with forward slashes. */
  files: readonly string[];
}

/** Text as it may stand in an element or between double quotes. */
export function xmlText(text: string): string {
  return text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;').replaceAll('"', '&quot;');
}

/**
 * No mastery score stands in it: a platform would then pass whoever has the points, and a job may ask for more than
 * points.
 */
export function manifestXml({ id, title, start, files }: PackageContents): string {
  const said = xmlText(title);
  return `<?xml version="1.0" encoding="UTF-8"?>
<manifest identifier="${id}" version="1.0"
  xmlns="http://www.imsproject.org/xsd/imscp_rootv1p1p2"
  xmlns:adlcp="http://www.adlnet.org/xsd/adlcp_rootv1p2"
  xmlns:xsi="http://www.w3.org/2001/XMLSchema-instance"
  xsi:schemaLocation="http://www.imsproject.org/xsd/imscp_rootv1p1p2 imscp_rootv1p1p2.xsd http://www.adlnet.org/xsd/adlcp_rootv1p2 adlcp_rootv1p2.xsd">
  <metadata>
    <schema>ADL SCORM</schema>
    <schemaversion>1.2</schemaversion>
  </metadata>
  <organizations default="job">
    <organization identifier="job">
      <title>${said}</title>
      <item identifier="work" identifierref="page" isvisible="true">
        <title>${said}</title>
      </item>
    </organization>
  </organizations>
  <resources>
    <resource identifier="page" type="webcontent" adlcp:scormtype="sco" href="${xmlText(start)}">
${files.map((path) => `      <file href="${xmlText(path)}"/>`).join('\n')}
    </resource>
  </resources>
</manifest>
`;
}

/** A page that leads on to another one, without a script: platforms may drop what stands behind a # or a ? in a manifest. */
export function leadingOn(title: string, address: string): string {
  const to = xmlText(address);
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<link rel="icon" href="data:,">
<meta http-equiv="refresh" content="0; url=${to}">
<title>${xmlText(title)}</title>
</head>
<body><p><a href="${to}">${xmlText(title)}</a></p></body>
</html>
`;
}
