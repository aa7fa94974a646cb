# shellcheck shell=bash
# What ./demo and ./check share: missing packages, the page's npm packages, configure and build. Sourced, not run.

cd "$(dirname "${BASH_SOURCE[0]}")" || exit 3

# Packages of Debian 12 that the build needs.
build_packages=(
  g++ cmake ninja-build pkg-config
  libgdal-dev libgeos-dev libproj-dev libfmt-dev libcli11-dev nlohmann-json3-dev libvalijson-dev
  libboost-date-time-dev libcpp-httplib-dev libssl-dev libudunits2-dev libgeographiclib-dev catch2 coinor-libcbc-dev
  libical-dev libxlsxwriter-dev
)

# step "what is done" command...: runs the command, then prints how long it took. Not to be used before || or in an if:
# there bash would ignore a failure in the middle of a function.
step() {
  local title=$1 began=$SECONDS
  shift
  printf '== %s\n' "$title"
  "$@"
  printf '== %s: %d s\n' "$title" $((SECONDS - began))
}

as_root() {
  if [ "$(id -u)" -eq 0 ]; then
    "$@"
  elif command -v sudo >/dev/null; then
    sudo "$@"
  else
    printf 'Cannot install packages: not root, and there is no sudo. As root: apt-get install %s\n' "${missing[*]}" >&2
    return 1
  fi
}

installed() { [ "$(dpkg-query -W -f='${db:Status-Status}' "$1" 2>/dev/null)" = installed ]; }

# install_missing package...: asks apt only for what is not there. A machine's own node, npm or browser is left as it is.
install_missing() {
  local package
  missing=()
  for package in "$@"; do
    case $package in
      nodejs) command -v node >/dev/null || missing+=("$package") ;;
      npm | chromium | clang-format | cmake) command -v "$package" >/dev/null || missing+=("$package") ;;
      *) installed "$package" || missing+=("$package") ;;
    esac
  done
  if [ ${#missing[@]} -eq 0 ]; then
    echo "all there"
    return
  fi
  echo "installing: ${missing[*]}"
  as_root env DEBIAN_FRONTEND=noninteractive apt-get -qq -o Acquire::Retries=3 update
  as_root env DEBIAN_FRONTEND=noninteractive apt-get -qq -y -o Acquire::Retries=3 --no-install-recommends install "${missing[@]}"
}

# The page's packages, exactly those of the lock file. Done again only when the lock file has changed.
install_page_packages() {
  local lock=src/web/package-lock.json done_for=src/web/node_modules/.installed-lock.json
  if [ ! -f "$lock" ] || cmp -s "$lock" "$done_for"; then
    echo "all there"
    return
  fi
  (cd src/web && npm ci --ignore-scripts --no-audit --no-fund)
  cp "$lock" "$done_for"
}

# configure preset: warnings are errors where CI=true; ccache is used where it is installed.
configure() {
  local options=(-DAFTERCUT_WERROR=OFF)
  if [ "${CI:-}" = true ]; then options=(-DAFTERCUT_WERROR=ON); fi
  if command -v ccache >/dev/null; then options+=(-DCMAKE_CXX_COMPILER_LAUNCHER=ccache); fi
  cmake --preset "$1" "${options[@]}"
}

# set_up package...: the packages of the build and those named, the page's packages, and the configured release build.
set_up() {
  step "Debian packages" install_missing "${build_packages[@]}" nodejs npm "$@"
  step "npm packages of the page" install_page_packages
  step "configure" configure release
}
