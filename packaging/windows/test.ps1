# Every check there is, as packaging/test does it elsewhere.
# Untried: written with care, never run on a Windows machine.
. (Join-Path $PSScriptRoot 'set-up.ps1')
Initialize-Environment 'test' 'requirements-test.lock'
Set-Location $root
$env:QT_QPA_PLATFORM = 'offscreen'
$env:PYTHONUTF8 = '1'
$failed = @()
foreach ($check in @(@('ruff', 'check'), @('ruff', 'format', '--check'), @('mypy'), @('lint-imports'))) {
    Write-Host "== $check"
    $rest = @($check | Select-Object -Skip 1)
    & (Join-Path $root ".venv\Scripts\$($check[0]).exe") @rest
    if ($LASTEXITCODE -ne 0) { $failed += "$check" }
}
Write-Host '== all tests'
& $python -m pytest -n auto --dist worksteal @args
if ($LASTEXITCODE -ne 0) { exit $LASTEXITCODE }
if ($failed.Count) { Stop-With 1 "FAILED: $($failed -join '; ')" }
