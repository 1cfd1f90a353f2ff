package mixmodel
import ("testing";"time";"math/rand/v2";"fmt")
func TestTmp(t *testing.T){
 r:=rand.New(rand.NewPCG(1,1))
 for _,n:=range []int{20,40,60} { for _,q:=range []int{2,3,4}{
  var pts [][]float64; var y []float64
  for range n { p:=make([]float64,q); s:=0.0; for i:=range p{p[i]=float64(r.IntN(256))/8; s+=p[i]}; for i:=range p{p[i]/=s}; pts=append(pts,p); y=append(y,float64(r.IntN(256)))}
  t0:=time.Now(); d,_:=NewDesign(Shares,[]string{"A","B","C","D"}[:q],pts); t1:=time.Now()
  c,_:=d.Choose(y); t2:=time.Now()
  for _,k:=range c.Candidates { if k.Model!=nil&&k.Kind!=Mean { a:=time.Now(); k.Model.Highest(); b:=time.Now(); k.Model.NearestTo(100); fmt.Println("  ",k.Kind,b.Sub(a),time.Since(b))}}
  fmt.Println(n,q,len(d.region.pieces),t1.Sub(t0),t2.Sub(t1))
 }}
 // measured lattice
 for _,q:=range []int{3,4}{ pts:=lattice(q,6); var y []float64
  for i:=range pts { s:=0.0; for k:=range pts[i]{ if pts[i][k]>0 {pts[i][k]+=(r.Float64()-.5)*0.005}; s+=pts[i][k]}; for k:=range pts[i]{pts[i][k]/=s}; y=append(y,r.Float64())}
  t0:=time.Now(); d,_:=NewDesign(Shares,[]string{"A","B","C","D"}[:q],pts); fmt.Println("lattice",q,len(d.region.pieces),time.Since(t0))
 }
}
