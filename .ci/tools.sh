#!/bin/sh
# Runs a command with the project's tools on its PATH, after getting those that are missing:
#
#   .ci/tools.sh page COMMAND...      what building the page takes
#   .ci/tools.sh browser COMMAND...   the same, and three browsers with their drivers for the tests
#   .ci/tools.sh bench COMMAND...     the same, and Lighthouse for the benchmark of the page
#
# A tool of the right version on the PATH is used as it is. Any other is put into the user's cache folder
# by its version, so it is got once for all clones; a second run only looks.
set -eu
cd "$(dirname "$0")/.."

cache="${XDG_CACHE_HOME:-$HOME/.cache}/pourwright/tools"
trunk_version=$(sed -n 's/^trunk-version = "=\(.*\)"$/\1/p' Trunk.toml)
wasm_opt_version=$(sed -n 's/^wasm_opt = "version_\(.*\)"$/\1/p' Trunk.toml)
wasm_bindgen_version=$(sed -n '/^name = "wasm-bindgen"$/{n;s/^version = "\(.*\)"$/\1/p;}' Cargo.lock)
wasm_split_version=0.2.4
lighthouse_version=12.8.2
geckodriver_version=0.37.1
axe_version=4.14.1

trunk_folder="$cache/trunk-$trunk_version"
wasm_bindgen_folder="$cache/wasm-bindgen-$wasm_bindgen_version"
wasm_opt_folder="$cache/wasm-opt-$wasm_opt_version"
wasm_split_folder="$cache/wasm-split-$wasm_split_version"
axe_folder="$cache/axe-core-$axe_version"
geckodriver_folder="$cache/geckodriver-$geckodriver_version"
PATH="$trunk_folder/bin:$wasm_bindgen_folder/bin:$wasm_opt_folder/bin:$wasm_split_folder/bin:$geckodriver_folder/bin:$PATH"
export PATH

say() { echo "tools: $*" >&2; }
fail() { say "$*"; exit 1; }
have() { command -v "$1" >/dev/null 2>&1; }

# Is the program $1 there in version $2? The version is the first number it prints about itself.
is_version() { [ "$("$1" --version 2>/dev/null | grep -o '[0-9][0-9.]*' | head -n 1)" = "$2" ]; }

# The system packages $2... for the sake of the programs named in $1.
system_packages() {
  programs=$1; shift
  if have apt-get && [ "$(id -u)" = 0 ]; then
    say "installing $programs from the system's packages"
    apt-get update -qq >&2 && DEBIAN_FRONTEND=noninteractive apt-get install -y -qq "$@" >&2 ||
      fail "that failed: install $programs by hand"
  else
    fail "install $programs first (on Debian: sudo apt-get install $*)"
  fi
}

# The crate $1 in version $2 into the folder $3, with what cargo shall be told besides; from source that takes
# about $4 minutes.
cargo_tool() {
  if [ $# = 4 ] && have cargo-binstall && cargo binstall --no-confirm --root "$3" "$1@$2" >&2; then
    return
  fi
  cargo_from_source "$@"
}

# The same, but never ready-made.
cargo_from_source() {
  crate=$1 version=$2 folder=$3 minutes=$4
  shift 4
  say "building $crate $version from source, once for all clones: about $minutes minutes on two cores"
  cargo install --quiet --locked --root "$folder" "$@" "$crate@$version" >&2
}

# Into a folder beside the final one, which then appears at once: half a tool is never found.
npm_wasm_opt() {
  have npm || return 1
  say "getting wasm-opt $wasm_opt_version from npm (binaryen)"
  rm -rf "$wasm_opt_folder" "$wasm_opt_folder.part"
  mkdir -p "$wasm_opt_folder.part/bin"
  npm install --silent --no-save --ignore-scripts --prefix "$wasm_opt_folder.part" "binaryen@$wasm_opt_version" >&2 &&
    ln -s ../node_modules/.bin/wasm-opt "$wasm_opt_folder.part/bin/wasm-opt" &&
    mv "$wasm_opt_folder.part" "$wasm_opt_folder" &&
    is_version wasm-opt "$wasm_opt_version"
}

# A script that the tests of the page run in it. Without it they fail and say so.
npm_axe() {
  [ -f "$axe_folder/axe.min.js" ] && return
  have npm || return 1
  say "getting axe-core $axe_version from npm"
  rm -rf "$axe_folder" "$axe_folder.part"
  mkdir -p "$axe_folder.part"
  npm install --silent --no-save --ignore-scripts --prefix "$axe_folder.part" "axe-core@$axe_version" >&2 &&
    cp "$axe_folder.part/node_modules/axe-core/axe.min.js" "$axe_folder.part/" &&
    mv "$axe_folder.part" "$axe_folder"
}

page_tools() {
  have cargo || fail "Rust is not installed: see https://rustup.rs"
  have cc || system_packages "a C linker (cc)" gcc libc6-dev
  if ! [ -d "$(rustc --print target-libdir --target wasm32-unknown-unknown)" ]; then
    rustup target add wasm32-unknown-unknown >&2
  fi
  is_version trunk "$trunk_version" || cargo_tool trunk "$trunk_version" "$trunk_folder" 13
  is_version wasm-bindgen "$wasm_bindgen_version" ||
    cargo_tool wasm-bindgen-cli "$wasm_bindgen_version" "$wasm_bindgen_folder" 4

  # Says no version of itself: the one in the folder of its version is the right one.
  have wasm-split-cli || cargo_tool wasm_split_cli_support "$wasm_split_version" "$wasm_split_folder" 3 \
    --features build-binary
  # Trunk finds ours first, and ours the true one.
  WASM_BINDGEN=$(command -v wasm-bindgen)
  PATH="$PWD/.ci/split:$PATH"
  export WASM_BINDGEN

  # Trunk optimises only where it says "release". Without wasm-opt it must not say so, but cargo still does.
  if is_version wasm-opt "$wasm_opt_version" || npm_wasm_opt; then
    export TRUNK_BUILD_RELEASE=true
  else
    say "no wasm-opt $wasm_opt_version (install node and npm to get it): the page works, but is larger without it"
    export TRUNK_BUILD_CARGO_PROFILE=release
  fi

  # Trunk works offline, so that it never downloads a tool by itself; the crates come here. It also asks the
  # network for a newer version of itself unless told not to.
  export TRUNK_SKIP_VERSION_CHECK=true
  cargo fetch --quiet --locked
}

browser_tools() {
  cargo fmt --version >/dev/null 2>&1 || rustup component add rustfmt >&2
  cargo clippy --version >/dev/null 2>&1 || rustup component add clippy >&2
  { have chromium || have google-chrome || have chromium-browser; } && { [ -n "${CHROMEDRIVER:-}" ] || have chromedriver; } ||
    system_packages "Chromium and its driver" chromium chromium-driver
  { have firefox || have firefox-esr; } || system_packages "Firefox" firefox-esr
  is_version geckodriver "$geckodriver_version" ||
    cargo_from_source geckodriver "$geckodriver_version" "$geckodriver_folder" 4
  # The driver starts its browser by itself, on a screen that nobody sees.
  { have WebKitWebDriver && have Xvfb; } || system_packages "WebKit with its driver, and a screen for it," \
    webkit2gtk-driver xvfb
  if npm_axe; then
    export POURWRIGHT_AXE="$axe_folder/axe.min.js"
  else
    say "no axe-core $axe_version (install node and npm to get it): its tests will fail"
  fi
  have pdftotext || system_packages "pdftotext, which reads printed pages back," poppler-utils
}

# Without npm the benchmark says that this line is missing.
bench_tools() {
  lighthouse_folder="$cache/lighthouse-$lighthouse_version"
  if ! [ -x "$lighthouse_folder/node_modules/.bin/lighthouse" ] && have npm; then
    say "getting lighthouse $lighthouse_version from npm"
    rm -rf "$lighthouse_folder" "$lighthouse_folder.part"
    mkdir -p "$lighthouse_folder.part"
    npm install --silent --no-save --ignore-scripts --prefix "$lighthouse_folder.part" \
      "lighthouse@$lighthouse_version" >&2 && mv "$lighthouse_folder.part" "$lighthouse_folder"
  fi
  if [ -x "$lighthouse_folder/node_modules/.bin/lighthouse" ]; then
    LIGHTHOUSE="$lighthouse_folder/node_modules/.bin/lighthouse"
    CHROME_PATH=$(command -v chromium || command -v google-chrome || command -v chromium-browser)
    export LIGHTHOUSE CHROME_PATH
  fi
}

case "${1:-}" in
  page) page_tools ;;
  browser) page_tools; browser_tools ;;
  bench) page_tools; browser_tools; bench_tools ;;
  *) fail "usage: .ci/tools.sh page|browser|bench COMMAND..." ;;
esac
shift
exec "$@"
