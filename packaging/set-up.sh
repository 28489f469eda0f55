# shellcheck shell=sh
# Functions of packaging/run and packaging/test, which source this file after setting `root`, the checkout.
# One environment, .venv, serves both: it is the one an editor finds, and PySide6 is fetched once.
# Everything said goes to standard error: the output of `packaging/run read CODE --json` stays clean.

venv=$root/.venv
python=$venv/bin/python
newest_python=14 # 3.11 to 3.14, as in pyproject.toml
# Set for other programs, these would lead Python away from the environment.
unset PYTHONHOME PYTHONPATH

say() {
    printf '%s\n' "$@" >&2
}

# stop STATUS LINE...
stop() {
    status=$1
    shift
    say "$@"
    exit "$status"
}

# --- system packages -------------------------------------------------------------------------------------

has() {
    command -v "$1" >/dev/null 2>&1
}

# sudo is asked only where it can ask back, or needs no password.
can_sudo() {
    has sudo && { (: </dev/tty) 2>/dev/null || sudo -n true 2>/dev/null; }
}

# apt_install PACKAGE...: as root or through sudo; otherwise print the command and stop with 3.
apt_install() {
    by_hand="apt-get update && apt-get install --yes --no-install-recommends $*"
    if has sudo; then by_hand="sudo sh -c '$by_hand'"; else by_hand="su - -c '$by_hand'"; fi
    if [ "$(id -u)" = 0 ]; then
        as_root=
    elif can_sudo; then
        as_root=sudo
    else
        stop 3 "System packages are missing. Run this, then start again:" "    $by_hand"
    fi
    say "Installing system packages with apt: $*"
    output=$(quiet_apt "$@" 2>&1) ||
        stop 3 "$(printf '%s\n' "$output" | tail -n 5)" "apt could not install them. Mend that, or run:" "    $by_hand"
}

# An update that fails (no network) is no reason to stop: the packages may lie on the disk. dpkg finishes first
# what an interrupted run left half done, or apt would refuse.
quiet_apt() {
    $as_root env DEBIAN_FRONTEND=noninteractive dpkg --configure -a </dev/null
    $as_root apt-get update -q -o DPkg::Lock::Timeout=120 </dev/null
    $as_root env DEBIAN_FRONTEND=noninteractive apt-get install --yes -q --no-install-recommends \
        -o DPkg::Lock::Timeout=120 "$@" </dev/null
}

# --- Python ----------------------------------------------------------------------------------------------

# find_python: print the real path of a Python that will do. The real path, because a link such as
# /usr/bin/python3 points to another release after a system upgrade, and the environment would be hollow.
find_python() {
    for name in python3 python3.14 python3.13 python3.12 python3.11; do
        "$name" - "$newest_python" <<'PYTHON' 2>/dev/null && return
import ensurepip, os, sys, venv
if not (3, 11) <= sys.version_info[:2] <= (3, int(sys.argv[1])):
    sys.exit(1)
print(os.path.realpath(sys.executable))
PYTHON
    done
    return 1
}

need_python() {
    base=$(find_python) && return
    if has apt-get; then
        apt_install python3 python3-venv
        base=$(find_python) && return
    fi
    stop 3 "This needs Python 3.11 to 3.$newest_python with its venv module, and found none." \
        "Install one so that python3 or python3.12, say, is on the PATH, then start again."
}

# --- the environment -------------------------------------------------------------------------------------

# A stamp holds what the environment was made from: the locks' and settings' checksum, and where it stands.
# It is written last, so an interrupted set-up has none.
wanted() {
    printf '%s %s\n' "$(cat "$root/packaging/$1" "$root/pyproject.toml" | cksum)" "$root"
}

# is_ready NAME LOCK
is_ready() {
    [ -x "$python" ] && [ ! -e "$venv/unfinished" ] && [ -r "$venv/ready-$1" ] &&
        read -r found <"$venv/ready-$1" && [ "$found" = "$(wanted "$2")" ]
}

# An environment that was cut short or has lost its Python is made anew. The old one is only put aside until the
# new one stands: without a network there may be no new one, and the old one may still start.
put_broken_aside() {
    [ -e "$venv" ] || [ -L "$venv" ] || return 0
    [ -x "$python" ] && [ ! -e "$venv/unfinished" ] && "$python" -c 'import pip' 2>/dev/null && return
    say "The environment .venv is incomplete: making it anew."
    if [ -e "$venv.old" ]; then rm -rf "$venv"; else mv "$venv" "$venv.old"; fi
}

bring_back() {
    [ -e "$venv.old" ] || return 0
    if [ ! -e "$venv" ] || [ -e "$venv/unfinished" ]; then
        rm -rf "$venv"
        mv "$venv.old" "$venv"
    fi
}

# moved_from: print where the environment was made, if that is not here.
moved_from() {
    for stamp in "$venv"/ready-*; do
        [ -e "$stamp" ] || continue
        read -r found <"$stamp"
        was=/${found#*/}
        [ "$was" = "$root" ] || { echo "$was" && return; }
    done
}

# A moved environment needs no network: its Python is a link to the system's, and the commands in it only hold
# the old path in their first lines.
take_home() {
    was=$(moved_from)
    [ -n "$was" ] && [ -x "$python" ] || return 0
    say "The checkout was moved: setting its environment right."
    : >"$venv/unmoved" 2>/dev/null || stop 3 "Cannot write in $venv: whoever set this up must start it once."
    "$python" - "$was/.venv" "$venv" <<'PYTHON'
import pathlib, sys
old, new = (name.encode() for name in sys.argv[1:])
for path in [*pathlib.Path(sys.argv[2], "bin").iterdir(), pathlib.Path(sys.argv[2], "pyvenv.cfg")]:
    if path.is_file() and not path.is_symlink() and old in (text := path.read_bytes()) and b"\0" not in text:
        path.write_bytes(text.replace(old, new))
PYTHON
    install_counter
    for stamp in "$venv"/ready-*; do
        read -r found <"$stamp"
        printf '%s%s\n' "${found%%/*}" "$root" >"$stamp"
    done
    rm -f "$venv"/libraries-* "$venv/unmoved"
}

make_venv() {
    need_python
    say "Making the environment .venv with $("$base" --version 2>&1)"
    mkdir "$venv" || stop 3 "Cannot write in $root"
    : >"$venv/unfinished"
    "$base" -m venv "$venv" >&2 || stop 3 "Python could not make an environment; its message is above."
}

# install_releases LOCK: wheels only, so nothing is ever built here.
install_releases() {
    say "Installing $(grep -c '==' "$root/packaging/$1") Python packages; the first time this takes a minute or two"
    "$python" -m pip install --quiet --quiet --disable-pip-version-check --no-input --no-warn-script-location \
        ${reinstall:-} --require-hashes --only-binary :all: --requirement "$root/packaging/$1" >&2 ||
        stop 3 "pip could not install them; its message is above. Without a network this works only once set up."
}

# The project itself: a line that puts the checkout on the path, and the counter command. A build back end
# would do the same through five more packages. The first two lines of the command are for sh, which starts
# Python with the rest: a plain #! line breaks on a long path or one with a space.
install_counter() {
    site=$("$python" -c 'import sysconfig; print(sysconfig.get_path("purelib"))')
    printf '%s\n' "$root" >"$site/lamp-counter.pth"
    quoted=$(printf '%s' "$python" | sed 's/[\\"$`]/\\&/g')
    cat >"$venv/bin/counter" <<COMMAND
#!/bin/sh
'''exec' "$quoted" -P "\$0" "\$@"
' '''
import sys

from counter.cli import main

sys.exit(main())
COMMAND
    chmod +x "$venv/bin/counter"
}

# Nearly half the start time is compiling, where nothing is compiled ahead.
compile_counter() {
    "$python" -m compileall -q "$root/counter" >&2 || say "Some files of counter/ do not compile."
}

# What the very first start would make before it could show anything, once; it needs the libraries of Qt. A folder
# that is there and empty says that it was tried in vain.
make_ahead() {
    [ -e "$root/counter/made" ] || [ ! -w "$root/counter" ] ||
        "$python" -P -m counter.window.outlines.ahead 2>/dev/null || mkdir -p "$root/counter/made" || :
}

# set_up NAME LOCK: make or mend the environment. Started twice at once, the second waits for the first.
set_up() {
    is_ready "$1" "$2" && return
    if has flock; then
        exec 9<"$root/packaging/set-up.sh" # any file that is there serves as the lock
        flock -n 9 || { say "Another set-up is at work here; waiting for it." && flock 9; }
    fi
    [ -e "$venv/unfinished" ] || take_home
    if ! is_ready "$1" "$2"; then # not ||, which would switch `set -e` off inside
        set_up_now "$1" "$2"
    fi
    exec 9<&-
}

set_up_now() {
    unset PIP_TARGET PIP_PREFIX
    PIP_USER=0
    export PIP_USER
    trap 'bring_back' EXIT
    trap 'exit 1' HUP INT TERM
    put_broken_aside
    [ -x "$python" ] || make_venv
    : >"$venv/unfinished" || stop 3 "Cannot write in $venv: whoever set this up must start it once."
    rm -f "$venv"/libraries-*
    install_releases "$2"
    install_counter
    compile_counter
    wanted "$2" >"$venv/ready-$1"
    # The test lock holds all of the other, so what it made serves both.
    wanted requirements.lock >"$venv/ready-run"
    rm "$venv/unfinished"
    rm -rf "$venv.old"
    trap - EXIT HUP INT TERM
}

# repair NAME LOCK: a package was lost or damaged; all are installed anew over what is there.
repair() {
    say "A package of the environment cannot be loaded: installing all of them anew."
    reinstall=--force-reinstall
    rm -f "$venv"/libraries-* "$venv/ready-$1"
    set_up "$1" "$2"
}

# --- the libraries and a font that Qt needs --------------------------------------------------------------

# package_of LIBRARY: the Debian package that holds it; Debian 12 and 13 and Ubuntu take the same names.
package_of() {
    case $1 in
        libglib-2.0.so.* | libgthread-2.0.so.*) echo libglib2.0-0 ;;
        libGL.so.* | libGLX.so.* | libGLdispatch.so.* | libOpenGL.so.*) echo libgl1 ;;
        libEGL.so.*) echo libegl1 ;;
        libdbus-1.so.*) echo libdbus-1-3 ;;
        libfontconfig.so.*) echo libfontconfig1 ;;
        libfreetype.so.*) echo libfreetype6 ;;
        libxkbcommon.so.*) echo libxkbcommon0 ;;
        libxkbcommon-x11.so.*) echo libxkbcommon-x11-0 ;;
        libX11.so.*) echo libx11-6 ;;
        libX11-xcb.so.*) echo libx11-xcb1 ;;
        libxcb.so.*) echo libxcb1 ;;
        libxcb-cursor.so.*) echo libxcb-cursor0 ;;
        libxcb-icccm.so.*) echo libxcb-icccm4 ;;
        libxcb-image.so.*) echo libxcb-image0 ;;
        libxcb-keysyms.so.*) echo libxcb-keysyms1 ;;
        libxcb-randr.so.*) echo libxcb-randr0 ;;
        libxcb-render-util.so.*) echo libxcb-render-util0 ;;
        libxcb-render.so.*) echo libxcb-render0 ;;
        libxcb-shape.so.*) echo libxcb-shape0 ;;
        libxcb-shm.so.*) echo libxcb-shm0 ;;
        libxcb-sync.so.*) echo libxcb-sync1 ;;
        libxcb-util.so.*) echo libxcb-util1 ;;
        libxcb-xfixes.so.*) echo libxcb-xfixes0 ;;
        libxcb-xkb.so.*) echo libxcb-xkb1 ;;
        libwayland-client.so.*) echo libwayland-client0 ;;
        libwayland-cursor.so.*) echo libwayland-cursor0 ;;
        libwayland-egl.so.*) echo libwayland-egl1 ;;
        libstdc++.so.*) echo libstdc++6 ;;
        libz.so.*) echo zlib1g ;;
        libzstd.so.*) echo libzstd1 ;;
        *) return 1 ;;
    esac
}

# seen_by_ldd PLATFORM: what ldd says of Qt's libraries and of its plugins for no screen and for this one.
# Qt's own message always blames xcb-cursor, whichever is missing.
seen_by_ldd() {
    qt=$("$python" -c 'import sysconfig; print(sysconfig.get_path("purelib"))')/PySide6
    ldd "$qt/QtCore.abi3.so" "$qt/QtGui.abi3.so" "$qt/QtWidgets.abi3.so" \
        "$qt/Qt/plugins/platforms/libqoffscreen.so" "$qt/Qt/plugins/platforms/libq$1.so" 2>/dev/null
}

# missing_libraries PLATFORM: their names, on one line.
missing_libraries() {
    seen_by_ldd "$1" | awk '/=> not found/ && !seen[$1]++ { printf "%s%s", gap, $1; gap = " " }'
}

find_font() {
    find /usr/share/fonts /usr/local/share/fonts "${HOME:-/nowhere}/.fonts" "${HOME:-/nowhere}/.local/share/fonts" \
        -name '*.[to]t[fc]' 2>/dev/null | head -n 1
}

# need_libraries PLATFORM: offscreen, xcb or wayland. Asking ldd takes 50 ms, so what it found is noted, and
# it is asked again only when one of those files has gone.
need_libraries() {
    [ "$(uname -s)" = Linux ] && has ldd || return 0
    all_there "$venv/libraries-$1" && return
    missing=$(missing_libraries "$1")
    if [ -n "$missing" ] || [ -z "$(find_font)" ]; then
        install_packages "$missing"
        missing=$(missing_libraries "$1")
        [ -z "$missing" ] || stop 3 "Qt still lacks: $missing" "Install what holds them, then start again."
    fi
    # Set up by somebody else, the environment may be shut to us: then it is asked again at each start.
    [ -w "$venv" ] || return 0
    { find_font && seen_by_ldd "$1" | awk '$2 == "=>" { print $3 }' | sort -u; } >"$venv/libraries-$1"
}

all_there() {
    [ -s "$1" ] || return 1
    while IFS= read -r file; do
        [ -e "$file" ] || return 1
    done <"$1"
}

# install_packages LIBRARIES: the packages that hold them, and a font if there is none.
install_packages() {
    packages=
    for library in $1; do
        package=$(package_of "$library") || continue
        case " $packages " in *" $package "*) ;; *) packages="$packages $package" ;; esac
    done
    [ -n "$(find_font)" ] || packages="$packages fonts-dejavu-core"
    has apt-get || stop 3 "Qt lacks on this system: ${1:-a font}" \
        "Install what holds that with the system's package manager, then start again. Debian's names:$packages"
    # shellcheck disable=SC2086  # one word a package
    [ -z "$packages" ] || apt_install $packages
}
