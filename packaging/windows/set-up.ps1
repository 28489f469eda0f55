# Functions for run.ps1, test.ps1 and bundle.ps1: the environment .venv, made once from a lock with hashes.
# Untried: written with care, never run on a Windows machine.
$ErrorActionPreference = 'Stop'
$root = (Resolve-Path (Join-Path $PSScriptRoot '..\..')).Path
$python = Join-Path $root '.venv\Scripts\python.exe'

function Stop-With([int] $status, [string] $words) {
    [Console]::Error.WriteLine($words)
    exit $status
}

# The launcher py knows every Python of the machine; without it, python on the PATH has to do.
function Find-Python {
    $ErrorActionPreference = 'Continue' # in here: the older PowerShell takes what a program says for an error of its own
    foreach ($release in '3.12', '3.13', '3.14', '3.11') {
        if (Get-Command py -ErrorAction SilentlyContinue) {
            & py "-$release" -c 'import venv, ensurepip' 2>$null
            if ($LASTEXITCODE -eq 0) { return @('py', "-$release") }
        }
    }
    if (Get-Command python -ErrorAction SilentlyContinue) {
        & python -c 'import sys, venv, ensurepip; sys.exit(not (3, 11) <= sys.version_info[:2] <= (3, 14))' 2>$null
        if ($LASTEXITCODE -eq 0) { return @('python') }
    }
    Stop-With 3 'This needs Python 3.11 to 3.14 with pip. Install one, with its launcher, then start again.'
}

# The stamp holds the lock's checksum and the folder; it is written last, so a set-up cut short has none.
function Initialize-Environment([string] $name, [string] $lock) {
    $lockFile = Join-Path $root "packaging\$lock"
    $stamp = Join-Path $root ".venv\ready-$name"
    $wanted = (Get-FileHash $lockFile).Hash + ' ' + $root
    if ((Test-Path $stamp) -and ((Get-Content $stamp -Raw).Trim() -eq $wanted)) { return }
    if (-not (Test-Path $python)) {
        $base = @(Find-Python)
        $rest = @($base | Select-Object -Skip 1) + @('-m', 'venv', (Join-Path $root '.venv'))
        & $base[0] @rest
        if ($LASTEXITCODE -ne 0) { Stop-With 3 'Python could not make an environment; its message is above.' }
    }
    & $python -m pip install --quiet --disable-pip-version-check --require-hashes --only-binary ':all:' -r $lockFile
    if ($LASTEXITCODE -ne 0) { Stop-With 3 'pip could not install the packages; its message is above.' }
    $site = & $python -c "import sysconfig; print(sysconfig.get_path('purelib'))"
    [IO.File]::WriteAllText((Join-Path $site 'lamp-counter.pth'), "$root`n")
    & $python -m compileall -q (Join-Path $root 'counter')
    & $python -P -m counter.window.outlines.ahead
    [IO.File]::WriteAllText($stamp, $wanted)
}
