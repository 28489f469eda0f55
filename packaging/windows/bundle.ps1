# Make the bundle dist\lamp-counter, and an installer of it where Inno Setup 6 is installed.
# Untried: written with care, never run on a Windows machine.
. (Join-Path $PSScriptRoot 'set-up.ps1')
Initialize-Environment 'bundle' 'requirements-bundle.lock'
Set-Location $root
& $python -P -m PyInstaller --noconfirm --log-level WARN --workpath build\bundle --distpath dist packaging\lamp-counter.spec
if ($LASTEXITCODE -ne 0) { Stop-With 1 'The bundle could not be made; the message is above.' }
$version = (& dist\lamp-counter\lamp-counter.exe --version | Select-Object -First 1)
if (-not $version) { Stop-With 1 'The bundle does not start.' }
$iscc = @('iscc', (Join-Path ${env:ProgramFiles(x86)} 'Inno Setup 6\ISCC.exe')) |
    Where-Object { Get-Command $_ -ErrorAction SilentlyContinue } | Select-Object -First 1
if ($iscc) {
    & $iscc "/DVersion=$version" packaging\windows\lamp-counter.iss
    exit $LASTEXITCODE
}
Write-Host 'dist\lamp-counter is ready. For an installer, install Inno Setup 6 and start this again.'
