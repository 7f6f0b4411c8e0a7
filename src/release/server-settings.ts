/** What a web server has to send with the files of a release, as settings for some plain servers. */

/** Folders of versions never change; what a release may change is asked for anew each time. */
export const FOREVER = 'public, max-age=31536000, immutable';
export const ANEW = 'no-cache';
/** Ends of names that servers do not always know, and their types. */
export const TYPES: Readonly<Record<string, string>> = {
  js: 'text/javascript',
  json: 'application/json',
  xml: 'text/xml',
  oxt: 'application/vnd.openofficeorg.extension',
  xlsx: 'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet',
};

const ORIGIN = 'Access-Control-Allow-Origin';
const RESOURCE = 'Cross-Origin-Resource-Policy';

/** Texts of settings by file name; `base` is the address that the release is served from. */
export function serverSettings(base: string): Readonly<Record<string, string>> {
  const { host, pathname } = new URL(base);
  const folder = pathname.replace(/\/$/, '');
  return {
    'nginx.conf': nginx(host, folder),
    'apache.htaccess': apache(),
    Caddyfile: caddy(host, folder),
    _headers: headers(folder),
  };
}

const nginx = (
  host: string,
  folder: string,
): string => `# nginx: inside http { ... }. Put in the folder of the release, and your certificate.
server {
  listen 443 ssl;
  server_name ${host};
  ssl_certificate     /etc/ssl/your-certificate.pem;
  ssl_certificate_key /etc/ssl/your-key.pem;

  location ${folder}/ {
    alias /srv/rodsheet/;
    index index.html;
    include mime.types;
    types { ${TYPES['oxt']} oxt; }
    add_header ${ORIGIN} "*" always;
    add_header ${RESOURCE} "cross-origin" always;
    add_header X-Content-Type-Options "nosniff" always;
    add_header Cache-Control $rodsheet_cache always;
  }
}
map $uri $rodsheet_cache {
  default "${ANEW}";
  "~^${folder}/v/" "${FOREVER}";
}
`;

const apache = (): string => `# Apache 2.4 with mod_headers: rename to .htaccess and put it beside index.html.
<IfModule mod_headers.c>
  Header always set ${ORIGIN} "*"
  Header always set ${RESOURCE} "cross-origin"
  Header always set X-Content-Type-Options "nosniff"
  Header always set Cache-Control "${ANEW}"
  Header always set Cache-Control "${FOREVER}" "expr=%{REQUEST_URI} =~ m#/v/[^/]+/#"
</IfModule>
${Object.entries(TYPES)
  .map(([end, type]) => `AddType ${type} .${end}\n`)
  .join('')}`;

const caddy = (host: string, folder: string): string => `# Caddy 2; it gets the certificate itself.
${host} {
  handle_path ${folder}/* {
    root * /srv/rodsheet
    header ${ORIGIN} "*"
    header ${RESOURCE} "cross-origin"
    header X-Content-Type-Options "nosniff"
    header Cache-Control "${ANEW}"
    @version path /v/*
    header @version Cache-Control "${FOREVER}"
    file_server
  }
}
`;

const headers = (
  folder: string,
): string => `# For hosts of static pages that read a file _headers: put it beside index.html.
${folder}/*
  ${ORIGIN}: *
  ${RESOURCE}: cross-origin
  X-Content-Type-Options: nosniff
${folder}/v/*
  Cache-Control: ${FOREVER}
${folder}/latest/*
  Cache-Control: ${ANEW}
`;
